import { suggestedAgain } from "../domain/suggested-again"
import type { PrismaClient } from "../store/generated/client"
import type { CaseAnswer, CaseWork } from "../store/outreach-cases"
import type { Refusal } from "./case-events"
import { workOnCase } from "./work-on-case"

/** A case as a page showed it. */
export type ShownCase = { readonly id: number; readonly version: number }

/** Of each letter whether it was recorded; whoever's case changed since it was shown is left as it is. */
export type LettersRecorded = {
  readonly sent: readonly number[]
  readonly left: readonly { id: number; answer: Exclude<CaseAnswer<Refusal>, { is: "done" }> }[]
}

/** Records letters as sent on a day, each case by itself, so that one that changed meanwhile holds up no other. */
export async function recordLetters(
  client: PrismaClient,
  work: CaseWork & { on: string; letters: readonly ShownCase[] },
): Promise<LettersRecorded> {
  const { letters, ...rest } = work
  const againOn = suggestedAgain("letter sent", work.on)
  const act = { kind: "attempt", channel: "letter", outcome: "letter sent", againOn } as const
  const sent: number[] = []
  const left: LettersRecorded["left"][number][] = []
  for (const letter of letters) {
    const answer = await workOnCase(client, { ...rest, ...letter, act, note: null })
    if (answer.is === "done") sent.push(letter.id)
    else left.push({ id: letter.id, answer })
  }
  return { sent, left }
}
