import type { ProtectionPerson } from "../../../lib/questions/protection-people"
import type { RasReason } from "../../../lib/questions/ras-reasons"
import type { RasStop } from "../../../lib/questions/ras-stops"
import type { UrinePoint } from "../../../lib/questions/urine-history"
import { day, lab, listed, sentenceCase } from "../../../lib/speech/format"
import { orderedWords } from "../drug-words"

/** "ACR 540 mg/g (A3)". */
export function urineWords(point: UrinePoint): string {
  const { number, comparator } = point
  const decimals = number < 10 ? 1 : 0
  const test = point.test === "uacr" ? "ACR" : "PCR"
  return `${test} ${lab({ number, comparator, unit: "mg/g", decimals })} (${point.a})`
}

/** Conditions that bear on the decision; what is looked for and not found is said as well. */
export function conditionWords(person: ProtectionPerson): string {
  const asked = [
    { words: "diabetes", holds: person.diabetes },
    { words: "heart failure", holds: person.heart_failure },
    { words: "atrial fibrillation", holds: person.atrial_fibrillation },
    { words: "pregnancy", holds: person.pregnancy },
  ].filter(({ words, holds }) => words !== "pregnancy" || holds || person.may_be_pregnant)
  const found = asked.filter(({ holds }) => holds).map(({ words }) => words)
  const absent = asked.filter(({ holds }) => !holds).map(({ words }) => words)
  const no = absent.length === 0 ? "" : `no ${absent.join(", ")} on record`
  return sentenceCase([listed(found), no].filter(Boolean).join("; "))
}

/** What was taken last and how it ended, a sentence each. */
export function stopWords(stop: RasStop): string[] {
  const drug = `${sentenceCase(stop.drug)}${orderedWords(stop)}`
  if (stop.is_run_out) return [drug, `The supply ran out on ${day(stop.stopped_on)}; no stop is recorded`]
  return [
    drug,
    `Stopped ${day(stop.stopped_on)}: ${stop.stop_reason ?? "no reason recorded"}`,
    ...(stop.seen_by === null ? [] : [`Visit of that day with ${stop.seen_by}`]),
  ]
}

/** Why the measure counts somebody as an exception, and until when. */
export function reasonWords(one: RasReason): string {
  const until = one.until === null ? "" : `, until ${day(one.until)}`
  const since = one.since === null ? "" : `, ${day(one.since)}`
  switch (one.reason) {
    case "decision":
      return `${sentenceCase(one.kind ?? "decided")}, decided${one.since === null ? "" : ` ${day(one.since)}`}${until}`
    case "angioedema":
      return `Angioedema to an ACE inhibitor or ARB on record${since}; nothing ends it`
    case "both kinds":
      return `Reactions to both an ACE inhibitor and an ARB on record${since}; nothing ends it`
    case "potassium":
      return `Potassium above 5.5 mmol/L${since}${until} unless measured again`
    case "pressure":
      return `Low pressure${since}${until} unless measured again`
  }
}

/** "KDIGO 2024 CKD guideline; secondary", in brackets. */
export function sourceWords({ source, mark }: { source: string; mark: string }): string {
  return mark === "read" ? `(${source})` : `(${source}; ${mark})`
}
