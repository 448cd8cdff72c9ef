import "server-only"
import { z } from "zod"
import type { Scope } from "../../../lib/access/scope"
import type { DecisionProblem, DecisionTopic } from "../../../lib/domain/clinician-decisions"
import { decidedWords, decisionProblemWords } from "../../../lib/speech/decision-words"
import { store } from "../../../lib/store/client"
import { listDecisions, type DecisionAnswer } from "../../../lib/store/clinician-decisions"
import { instantInFull } from "../imports/import-words"
import { clinicTimeZone } from "../time-zone"
import type { DecisionSent } from "./decision-sent"

type About = { scope: Scope; publicId: string; topic: DecisionTopic }

/** What was typed goes back with the words, for a form that was sent without scripts. */
export function problem(
  before: DecisionSent,
  form: FormData,
  told: Pick<DecisionSent, "field"> & { words: string },
): DecisionSent {
  const typed = [...form].filter(([name, value]) => typeof value === "string" && !name.startsWith("$"))
  return {
    ...before,
    ...{ problem: told.words, field: told.field },
    typed: z.record(z.string(), z.string()).parse(Object.fromEntries(typed)),
  }
}

/** What is said of a decision that was not made; after somebody else's it names that one and what to send next. */
export async function refused(
  before: DecisionSent,
  form: FormData,
  { answer, about }: { answer: Exclude<DecisionAnswer, { is: "done" }>; about: About },
): Promise<DecisionSent> {
  if (answer.is === "refused")
    return problem(before, form, { field: fieldOf(answer.why), words: decisionProblemWords[answer.why] })
  if (answer.is === "names-person")
    return problem(before, form, {
      ...{ field: "note", words: "The note names a patient. A note does without names." },
    })
  if (answer.is === "gone")
    return problem(before, form, { field: null, words: "There is no such person here." })
  const { words, shownId } = await decidedMeanwhile(about)
  return { ...problem(before, form, { field: null, words }), shownId }
}

function fieldOf(why: DecisionProblem): "note" | "until" {
  return why === "note is missing" ? "note" : "until"
}

async function decidedMeanwhile({ scope, publicId, topic }: About) {
  const [all, timeZone] = await Promise.all([listDecisions(store(), { scope, publicId }), clinicTimeZone()])
  const latest = all.find((one) => one.topic === topic && one.undoneOn === null)
  const kept = "Nothing was recorded. What was typed is kept; sending it again records it."
  if (latest === undefined)
    return { shownId: null, words: `The decision shown was taken back meanwhile. ${kept}` }
  const when = instantInFull(latest.madeAt, timeZone)
  const words = `Meanwhile ${latest.madeBy} decided, ${when}: ${decidedWords(latest)}. ${kept}`
  return { shownId: latest.id, words }
}
