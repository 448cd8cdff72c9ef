import type { CaseStanding } from "../outreach/case-standing"
import type { Refusal } from "../outreach/case-events"
import type { AttemptStep } from "../outreach/attempts-rule"
import { day, instant } from "./format"

/** A line of a case's history, as far as words need it. */
export type ToldLine = {
  kind: string
  why: string | null
  channel: string | null
  outcome: string | null
  untilOn: string | null
  assignedTo: string | null
}

const refusals: Readonly<Record<Refusal, string>> = {
  "asked not to be contacted": "This person asked not to be contacted. A note can be written.",
  left: "This person has left the clinic. A note can be written.",
  died: "This person has died. A note can be written.",
  "no case": "There is no case of this person.",
  closed: "The case is closed. Open it again first.",
  "not closed": "The case is open.",
  "taken by somebody else": "Somebody else has this case.",
  "only of a letter": "Only a letter is sent or returned. Choose letter beside By.",
  "day is missing": "The day to try again is needed after this outcome.",
  "day is not later": "The day has to be later than today.",
  "day is beyond 90 days": "The day has to be within 90 days.",
  "urgent, not acknowledged":
    "Something urgent holds that nobody has acknowledged. It is acknowledged first; moved and deceased close it in any case.",
  "nothing urgent": "Nothing urgent holds.",
  "acknowledged already": "It was acknowledged already.",
  "no reason holds": "No reason holds at present, so there is nothing to contact this person for.",
  "nothing to take back": "There is nothing to take back.",
  "done by somebody else": "The latest act is somebody else's. Only one's own can be taken back.",
  "done on another day": "Only what was done today can be taken back.",
  "changed since": "The data changed the case since, so this cannot be taken back.",
}

/** Why an act was refused, in a sentence for beside its field. */
export function refusalWords(why: Refusal): string {
  return refusals[why]
}

/** What a line says after the name of whoever did it: "recorded an attempt by phone: no answer; again on 30 Nov 2026". */
export function actWords(line: ToldLine): string {
  const { kind, channel, outcome, untilOn, why, assignedTo } = line
  switch (kind) {
    case "attempt": {
      const again = untilOn === null ? "" : `; again on ${day(untilOn)}`
      return `recorded an attempt${byWords(channel)}: ${outcome ?? "outcome not given"}${again}`
    }
    case "assign":
      return assignedTo === null ? "gave the case to nobody" : `gave the case to ${assignedTo}`
    case "snooze":
      return untilOn === null ? "snoozed it" : `snoozed it until ${day(untilOn)}`
    case "close":
      return `closed the case: ${why ?? "no reason given"}`
    default:
      return simpleActs[kind] ?? kind
  }
}

const simpleActs: Readonly<Record<string, string>> = {
  attempt: "recorded an attempt",
  assign: "gave the case to somebody",
  take: "took the case",
  snooze: "snoozed it",
  close: "closed the case",
  note: "wrote a note",
  acknowledge: "acknowledged what is urgent",
  reopened: "opened the case again",
  "take back": "took back the act before",
}

const dataActs: Readonly<Record<string, string>> = {
  opened: "The case opened",
  "reasons changed": "The reasons changed",
  "closed itself": "The case closed itself, since no reason is left",
  woken: "Back on the list",
  reopened: "The case opened again",
}

/** What the data did of themselves: "The case opened again: reason returned". */
export function dataWords(line: Pick<ToldLine, "kind" | "why">): string {
  const said = dataActs[line.kind] ?? line.kind
  return line.why === null || line.kind === "closed itself" ? said : `${said}: ${line.why}`
}

/** Told to whoever saw a case before it changed. */
export function conflictWords(
  last: { kind: string; byId: string | null; byName: string; at: Date } | null,
  timeZone: string,
): string {
  if (last === null) return "The case changed while this page was open."
  const at = instant(last.at.toISOString(), timeZone)
  if (last.byId === null)
    return `New data changed the case while this page was open (${dataWords({ ...last, why: null })}, ${at}).`
  return `${last.byName} ${simpleActs[last.kind] ?? last.kind} on ${at}, while this page was open.`
}

/** Where a case stands: "waiting to be tried again on 30 Nov 2026". */
export function standingWords(standing: CaseStanding): string {
  switch (standing.kind) {
    case "to contact":
      return "to contact"
    case "urgent":
      return "urgent, not acknowledged"
    case "kept":
      return standing.from
    case "snoozed":
      return `snoozed until ${day(standing.until)}`
    case "waiting":
      return `to try again on ${day(standing.until)}`
    case "closed":
      return standing.until === null
        ? `closed: ${standing.reason}`
        : `closed: ${standing.reason}, until ${day(standing.until)} at most`
  }
}

const ordinals = ["No attempt", "First attempt", "Second attempt", "Third attempt"]

/** What comes next by the clinic's rule: "Third attempt, by 2 channels: a letter is next". */
export function stepWords(tried: { attempts: number; channels: number; step: AttemptStep }): string {
  const { attempts, channels, step } = tried
  if (attempts === 0) return "No attempt yet"
  const made = `${ordinals[attempts] ?? `${attempts} attempts`}, by ${channels} ${channels === 1 ? "channel" : "channels"}`
  if (step === "write a letter") return `${made}: a letter is next`
  if (step === "tell the clinician") return `${made}, and a letter: the clinician is told next`
  return step === "try another channel" ? `${made}: another channel is next` : made
}

function byWords(channel: string | null): string {
  if (channel === null) return ""
  return channel === "in person" ? " in person" : ` by ${channel}`
}
