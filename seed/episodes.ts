import { textOf, timeOf, type Day } from "./calendar"
import { drawCreatinine, egfrOn } from "./kidney"
import { takePotassium, writeCreatinine } from "./labs"
import { nextId, treatmentsOf, type Life } from "./life"
import { changeStep, endCourse } from "./orders"
import { takeUncountedPressure } from "./pressure"
import { stopRas } from "./ras-blockade"

/** Days until the next emergency visit or admission: sicker kidneys, sooner. */
export function nextEpisodeDay(life: Life, day: Day): Day {
  const egfr = egfrOn(life.kidney, day, treatmentsOf(life, day))
  const perYear = 0.1 + Math.max(0, 60 - egfr) * 0.0035 + (life.person.hasHeartFailure ? 0.12 : 0)
  return Math.round(day + 3 + life.random.wait(365 / perYear))
}

/** An emergency visit, an admission after it or on its own, and for some an acute kidney injury. */
export function sufferEpisode(life: Life, day: Day): void {
  const isAdmission = life.random.chance(0.55)
  if (!isAdmission || life.random.chance(0.5)) visitEmergency(life, day)
  if (isAdmission) stayInHospital(life, day)
}

function visitEmergency(life: Life, day: Day): void {
  const { random, person } = life
  life.rows.visits.push({
    visit_id: nextId(life, "V"),
    patient_id: person.id,
    started_on: textOf(day),
    ended_on: random.chance(0.4) ? textOf(day) : "",
    kind: "emergency",
  })
  takeUncountedPressure({ life, day, setting: "emergency", shift: 16 })
  if (random.chance(0.5)) takeUncountedPressure({ life, day, setting: "emergency", shift: 8 })
}

function stayInHospital(life: Life, day: Day): void {
  const { random, person, kidney } = life
  const nights = 1 + Math.min(24, Math.round(random.wait(5)))
  const last = Math.min(day + nights, life.period.through)
  life.rows.visits.push({
    visit_id: nextId(life, "V"),
    patient_id: person.id,
    started_on: textOf(day),
    ended_on: random.chance(0.86) ? textOf(last) : "",
    kind: "inpatient",
  })
  const isInjured = life.dialysisFrom === null && random.chance(0.5)
  const peak = isInjured ? random.between(0.35, 0.75) : random.between(0.88, 1)
  const latent = egfrOn(kidney, day, treatmentsOf(life, day))
  for (let current = day; current <= last; current += random.whole(1, 3)) {
    const healed = peak + (1 - peak) * ((current - day) / (last - day + 3))
    const time = timeOf(current, 6 * 60 + random.whole(0, 50))
    const egfr = Math.max(4, latent * healed)
    writeCreatinine(life, time, drawCreatinine({ person, egfr, day: current, random }))
    takePotassium(life, { day: current, time, egfr })
    takeUncountedPressure({ life, day: current, setting: "inpatient", shift: isInjured ? -12 : 4 })
  }
  if (!isInjured) return
  kidney.lostEgfr += random.chance(0.5) ? random.between(0, 0.1) * latent : 0
  life.rows.problems.push({
    problem_id: nextId(life, "P"),
    patient_id: person.id,
    code_system: "icd10cm",
    code: "N17.9",
    description: "Acute kidney failure, unspecified",
    onset_on: textOf(day),
    resolved_on: textOf(last),
    recorded_on: textOf(day),
  })
  holdDrugs(life, day)
}

/** Hospitals stop RAS blockers, and often a diuretic, in acute kidney injury; not all are started again. */
function holdDrugs(life: Life, day: Day): void {
  const { random } = life
  const ras = life.regimen.find((course) => course.drug.rasKind !== null)
  if (ras && random.chance(0.5)) {
    stopRas(life, ras, {
      day,
      reason: random.pick(["AKI", "held in hospital", "creatinine rise", "creatinine up", ""]),
    })
  }
  const diuretic = life.regimen.find(
    (course) => course.drug.classes.includes("diuretic") && course.drug.classes.length === 1,
  )
  if (!diuretic || !random.chance(0.25)) return
  if (diuretic.step > 0) changeStep(life, diuretic, { step: diuretic.step - 1, day })
  else endCourse(life, diuretic, { day, reason: "dehydration" })
}

/** Dialysis: its problems, then visits at the unit with pressures that do not count. */
export function startDialysis(life: Life, day: Day): void {
  const { person, random } = life
  life.dialysisFrom = day
  life.notes.dialysisFrom = day
  life.rows.problems.push(
    {
      problem_id: nextId(life, "P"),
      patient_id: person.id,
      code_system: "icd10cm",
      code: "N18.6",
      description: "End stage renal disease",
      onset_on: textOf(day),
      recorded_on: textOf(day),
    },
    {
      problem_id: nextId(life, "P"),
      patient_id: person.id,
      code_system: "icd10cm",
      code: "Z99.2",
      description: "Dependence on renal dialysis",
      onset_on: textOf(day),
      recorded_on: textOf(day),
    },
  )
  for (const course of [...life.regimen]) {
    if (random.chance(0.35)) endCourse(life, course, { day, reason: random.pick(["dialysis started", ""]) })
  }
}

export function attendDialysis(life: Life, day: Day): Day {
  life.rows.visits.push({
    visit_id: nextId(life, "V"),
    patient_id: life.person.id,
    started_on: textOf(day),
    ended_on: textOf(day),
    kind: "dialysis",
  })
  life.notes.visits.push({ day, isCounted: true })
  takeUncountedPressure({ life, day, setting: "dialysis", shift: 6 })
  return day + life.random.whole(10, 18)
}

/** A new kidney: function starts again from a different place. */
export function receiveTransplant(life: Life, day: Day): void {
  const { random, person, kidney } = life
  life.transplantFrom = day
  life.notes.transplantFrom = day
  life.dialysisFrom = null
  kidney.anchor = day
  kidney.egfrAtAnchor = Math.max(22, random.normal(50, 13))
  kidney.slopePerYear = random.normal(-1.3, 1)
  kidney.lostEgfr = 0
  kidney.lnAcrAtAnchor = random.normal(3.2, 1.2)
  kidney.dialysisAt = 0
  life.rows.problems.push({
    problem_id: nextId(life, "P"),
    patient_id: person.id,
    code_system: "icd10cm",
    code: "Z94.0",
    description: "Kidney transplant status",
    onset_on: textOf(day),
    recorded_on: textOf(day),
  })
}
