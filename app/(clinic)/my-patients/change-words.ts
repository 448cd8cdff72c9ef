import type { ChangeKind } from "../../../lib/domain/changes"
import { decisionKinds, decisionTopics } from "../../../lib/domain/clinician-decisions"
import type { Settings } from "../../../lib/domain/settings"
import { standings } from "../../../lib/domain/standings"
import { findWordedMeasure } from "../../../lib/measures/worded-measures"
import type { OwnChange, OwnChangeGroup } from "../../../lib/questions/own-changes"
import { causeWords } from "../../../lib/speech/change-words"
import { decisionKindWords, decisionTopicWords } from "../../../lib/speech/decision-words"
import { day, sentenceCase } from "../../../lib/speech/format"
import { standingWords } from "../../../lib/speech/measure-words"
import { reasonParts } from "../../../lib/speech/outreach-words"
import { classWords } from "../../_ui/class-words"

export const groupWords: Readonly<Record<OwnChangeGroup, string>> = {
  urgent: "something urgent",
  worse: "newly want attention on a measure",
  better: "no longer do on a measure",
  kidney: "another eGFR or urine category",
  drugs: "a drug class started or stopped",
  decisions: "a decision recorded",
  panel: "joined or left the panel",
}

const leftWords: Readonly<Record<string, string>> = {
  left: "left the clinic",
  died: "died",
  "no visit": "no visit within the months that count",
}

/** One change in words: what it is of, what it is now, and what it rests on; the last may be nothing. */
export type ChangeSaid = { name: string; now: string; why: string }

export function changeSaid(change: OwnChange, settings: Settings): ChangeSaid {
  const on = change.on_day === null ? "" : day(change.on_day)
  switch (change.kind) {
    case "urgent":
      return urgentSaid(change, settings)
    case "worse":
    case "better":
    case "ended":
      return standingSaid(change, settings)
    case "left":
      return { name: "Left the panel", now: leftWords[change.word ?? ""] ?? change.word ?? "", why: "" }
    case "joined":
      return { name: "Joined the panel", now: "", why: "" }
    case "eGFR category":
    case "urine category":
      return {
        name: sentenceCase(change.kind),
        now: `${change.later ?? ""}, before ${change.earlier ?? ""}`,
        why: on,
      }
    case "class started":
    case "class stopped":
      return {
        name: `${sentenceCase(classWords(change.word ?? ""))} ${change.kind === "class started" ? "started" : "stopped"}`,
        now: "",
        why: on,
      }
    case "decision":
      return { ...decisionSaid(change), why: on }
  }
}

function urgentSaid(change: OwnChange, settings: Settings): ChangeSaid {
  const fact = { factOn: change.on_day, value: change.value, secondValue: change.second_value }
  const { name, detail } = reasonParts(
    { reason: change.word ?? "", ...fact, comparator: change.comparator, fallsOutOn: null },
    settings,
  )
  return { name, now: detail, why: "" }
}

function standingSaid(change: OwnChange, settings: Settings): ChangeSaid {
  const measure = findWordedMeasure(change.word ?? "", settings)
  const words = (word: string | null) => {
    const standing = standings.find((one) => one === word)
    return measure && standing ? standingWords(measure, standing) : (word ?? "")
  }
  return {
    name: measure?.name ?? change.word ?? "",
    now: `${words(change.later)}, before ${words(change.earlier)}`,
    why: change.cause === null ? "" : causeWords(kindOf(change), change.cause),
  }
}

function decisionSaid({ word, later }: OwnChange): Omit<ChangeSaid, "why"> {
  const topic = decisionTopics.find((one) => one === word)
  const kind = decisionKinds.find((one) => one === later)
  if (!topic || !kind) return { name: "Decision", now: later ?? "" }
  return {
    name: `Decision on ${decisionTopicWords[topic]}`,
    now: decisionKindWords(kind, topic).toLowerCase(),
  }
}

/** The words of a cause ask which part of a change it is; of other causes than a joining or leaving all parts say the same. */
function kindOf({ kind, cause, earlier, later }: OwnChange): ChangeKind {
  if (cause === "news" || cause === "time") return kind === "better" ? "gained" : "lost"
  return isOutOfCount(earlier) && !isOutOfCount(later) ? "joined" : "left"
}

function isOutOfCount(standing: string | null): boolean {
  return standing !== "met" && standing !== "not met"
}
