import { textOf, type Day } from "./calendar"
import type { Course, Life } from "./life"
import { endCourse, startCourse } from "./orders"
import { arbs } from "./single-drugs"
import { addClass, type Findings } from "./treatment"

/** Stops, switches and starts of ACE inhibitors and ARBs, for the reasons a kidney clinic meets. */
export function reviewRasBlocker(life: Life, findings: Findings & { acr: number }): void {
  const course = life.regimen.find((open) => open.drug.rasKind !== null)
  if (course) reviewOngoing(life, course, findings)
  else considerStart(life, findings)
}

function reviewOngoing(life: Life, course: Course, findings: Findings & { acr: number }): void {
  const { random } = life
  const { day, potassium, egfr } = findings
  if (potassium !== null && potassium > 5.5 && random.chance(potassium > 6 ? 0.8 : 0.3)) {
    const reason = random.pick([`potassium ${potassium.toFixed(1)}`, "hyperkalaemia", "high potassium", ""])
    return stopRas(life, course, { day, reason })
  }
  const isNew = day - course.startedOn < 240
  if (course.drug.rasKind === "ace_inhibitor" && isNew && random.chance(0.035))
    return switchForCough(life, course, day)
  if (random.chance(0.0009)) return stopForAngioedema(life, course, day)
  if (egfr < 22 && random.chance(0.035)) {
    return stopRas(life, course, {
      day,
      reason: random.pick(["creatinine rise", "eGFR falling", "creatinine up 34%"]),
    })
  }
  if (random.chance(0.007)) {
    return stopRas(life, course, {
      day,
      reason: random.pick(["patient's wish", "own wish", "stopped by GP", "", ""]),
    })
  }
}

export function stopRas(life: Life, course: Course, options: { day: Day; reason: string }): void {
  endCourse(life, course, options)
  life.rasStoppedOn = options.day
}

/** Cough on an ACE inhibitor: most go over to an ARB the same day or after a pause. */
function switchForCough(life: Life, course: Course, day: Day): void {
  const { random } = life
  endCourse(life, course, { day, reason: random.pick(["cough", "dry cough", "persistent cough", ""]) })
  life.rasBarrier = { ...life.rasBarrier, aceInhibitor: true }
  if (random.chance(0.7))
    writeAllergy(life, { substance: course.drug.name, reaction: "cough", kind: "intolerance", day })
  if (random.chance(0.7)) startCourse(life, { drug: random.weigh(arbs), step: 0, day })
  else life.rasStoppedOn = day
}

function stopForAngioedema(life: Life, course: Course, day: Day): void {
  stopRas(life, course, { day, reason: "angioedema" })
  life.rasBarrier = { aceInhibitor: true, both: true }
  writeAllergy(life, { substance: course.drug.name, reaction: "angioedema", kind: "allergy", day })
}

function considerStart(life: Life, findings: Findings & { acr: number }): void {
  const { random, period } = life
  const { day, egfr, acr, potassium } = findings
  if (life.rasBarrier.both || life.palliativeFrom !== null || egfr < 13 || (potassium ?? 4.5) > 5.2) return
  const isReviewed = day >= period.protectionReviewFrom
  const isAgain = life.rasStoppedOn !== null
  const base = acr > 300 ? 0.2 : acr > 30 ? 0.14 : 0.01
  const again = isAgain ? 0.5 : 1
  if (!random.chance(base * again * life.person.zeal * (isReviewed ? 3 : 1))) return
  life.rasStoppedOn = null
  addClass(life, { drugClass: "ras_blocker", day, egfr })
  life.notes.rasStarts.push({ day, checkedAfterDays: null })
}

export function writeAllergy(
  life: Life,
  entry: { substance: string; reaction: string; kind: "allergy" | "intolerance"; day: Day },
): void {
  life.rows.allergies.push({
    patient_id: life.person.id,
    substance: entry.substance,
    reaction: entry.reaction,
    kind: entry.kind,
    recorded_on: textOf(entry.day),
  })
}

/**
 * What is known of earlier trials before the story begins: some who should take a RAS blocker tried one and
 * stopped, some were never given one.
 */
export function earlierRasHistory(life: Life, options: { day: Day; isAlbuminuric: boolean }): void {
  const { random } = life
  const draw = random.unit()
  if (draw < 0.006) {
    life.rasBarrier = { aceInhibitor: true, both: true }
    writeAllergy(life, {
      substance: random.pick(["lisinopril", "ramipril", "ACE inhibitors"]),
      reaction: "angioedema",
      kind: "allergy",
      day: options.day - random.whole(200, 3000),
    })
  } else if (draw < 0.07) {
    life.rasBarrier = { aceInhibitor: true, both: false }
    const day = options.day - random.whole(200, 3000)
    writeAllergy(life, {
      substance: random.pick(["lisinopril", "Ramipril", "ACE inhibitor", "enalapril"]),
      reaction: "cough",
      kind: "intolerance",
      day,
    })
  } else if (draw < 0.078) {
    life.rasBarrier = { aceInhibitor: true, both: true }
    const day = options.day - random.whole(200, 2000)
    writeAllergy(life, { substance: "lisinopril", reaction: "kidney injury", kind: "intolerance", day })
    writeAllergy(life, {
      substance: "losartan",
      reaction: "hyperkalaemia",
      kind: "intolerance",
      day: day + random.whole(30, 160),
    })
  }
  if (!life.rasBarrier.both && random.chance(options.isAlbuminuric ? 0.22 : 0.12))
    writeEarlierTrial(life, options.day)
}

function writeEarlierTrial(life: Life, day: Day): void {
  const { random } = life
  const stopped = day - random.whole(30, 1500)
  addClass(life, { drugClass: "ras_blocker", day: stopped - random.whole(30, 1200), egfr: 45 })
  const course = life.regimen.find((open) => open.drug.rasKind !== null)
  if (!course) return
  const reason = random.pick([
    "potassium 5.9",
    "creatinine rise",
    "AKI",
    "dizzy",
    "own wish",
    "",
    "",
    "hyperkalaemia",
  ])
  stopRas(life, course, { day: stopped, reason })
}
