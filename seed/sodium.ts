import { textOf, timeOf, workday, type Day } from "./calendar"
import { dietitianAt } from "./clinic"
import { nextId, type Life } from "./life"

/** Sodium really eaten on an average day, mg: the person's habit, less what the programme at Riverside achieves. */
export function dietarySodiumMg(life: Life, day: Day): number {
  const { period, person } = life
  if (person.site !== "Riverside" || !life.isInDietProgramme || day <= period.sodiumProgrammeFrom) {
    return life.usualSodiumMg
  }
  const months = (day - period.sodiumProgrammeFrom) / 30.44
  return life.usualSodiumMg * (1 - 0.27 * Math.min(1, months / 20))
}

const methods = [
  { method: "recall_24h", weight: 42 },
  { method: "food_record", weight: 20 },
  { method: "food_frequency", weight: 13 },
  { method: "urine", weight: 25 },
] as const

/** Draws whether and when a dietitian follows a person: more often in diabetes and with high pressure. */
export function drawDietPeriod(life: Life): void {
  const { random, person, period } = life
  const share = 0.42 + (person.hasDiabetes ? 0.12 : 0) + (life.untreated.systolic > 150 ? 0.14 : 0)
  if (!random.chance(share)) return
  life.dietFrom = workday(Math.max(period.runIn + 120, person.registered + 14) + random.wait(380))
  life.dietUntil = endOfReferral(life, life.dietFrom)
  life.isInDietProgramme = true
}

function endOfReferral(life: Life, from: Day): Day {
  return from + 200 + Math.round(life.random.wait(420))
}

/** A referral that has run out is often made again after a year or more. */
export function referAgain(life: Life, day: Day): Day {
  const again = workday(day + 120 + life.random.wait(420))
  life.dietUntil = endOfReferral(life, again)
  return again
}

/** Days between two diet records of one person. */
export function nextDietDay(life: Life, day: Day): Day {
  return workday(day + Math.max(21, life.random.normal(62, 20)))
}

/** One contact with the dietitian: a visit, and one or a few records by one method. */
export function recordDiet(life: Life, day: Day): void {
  const { random, person } = life
  const hasOwnVisit = random.chance(0.45)
  if (hasOwnVisit) {
    life.rows.visits.push({
      visit_id: nextId(life, "V"),
      patient_id: person.id,
      started_on: textOf(day),
      kind: random.chance(0.35) ? "telehealth" : "office",
      clinician_id: dietitianAt(person.site).id,
    })
    life.notes.visits.push({ day, isCounted: true })
  }
  const { method } = random.weigh(methods)
  if (method === "urine") return recordUrineSodium(life, day)
  const times = method === "recall_24h" && random.chance(0.3) ? 2 : 1
  for (let i = 0; i < times; i++) recordFood({ life, day: day - i * 2, method })
}

function recordFood(options: {
  life: Life
  day: Day
  method: "recall_24h" | "food_record" | "food_frequency"
}): void {
  const { life, day, method } = options
  const { random, person } = life
  // People forget some of what they eat; one day differs from the next more than a month does.
  const spread = method === "recall_24h" ? 0.22 : method === "food_record" ? 0.17 : 0.12
  const told = method === "food_frequency" ? 0.86 : 0.95
  const factor = Math.exp(random.normal(0, spread))
  const sodiumMg = Math.min(
    14000,
    Math.max(400, Math.round((dietarySodiumMg(life, day) * told * factor) / 10) * 10),
  )
  const energy = Math.round(random.normal(person.bodySex === "female" ? 1650 : 1980, 260) / 10) * 10
  life.rows.diet.push({
    diet_id: person.site === "Riverside" ? nextId(life, "D") : "",
    patient_id: person.id,
    recorded_on: textOf(day),
    method,
    sodium_mg: sodiumMg,
    potassium_mg: random.chance(0.85) ? Math.max(600, Math.round(random.normal(2250, 560) / 10) * 10) : "",
    energy_kcal: random.chance(0.8) ? Math.max(700, energy) : "",
    protein_g: random.chance(0.75) ? Math.max(25, Math.round(random.normal(68, 16))) : "",
  })
  const series = method === "food_frequency" ? "food frequency" : "counted days"
  life.notes.sodium.push({ day, mg: sodiumMg, series })
}

const milligramsPerMillimole = 22.99

/** The part of a day's urine that came into the bottle: of one day in nine a third. */
function partCollected(day: Day): number {
  return day % 9 === 0 ? 1 / 3 : 1
}

function recordUrineSodium(life: Life, day: Day): void {
  const { random, person } = life
  const excretedMmol =
    (dietarySodiumMg(life, day) * 0.95 * Math.exp(random.normal(0, 0.2))) / milligramsPerMillimole
  const mmol = Math.min(500, Math.max(15, Math.round(excretedMmol)))
  const collected = timeOf(day, 8 * 60 + random.whole(0, 60))
  const unit = random.pick(["mmol/d", "mmol/24h", "meq/24h", "mmol/d"])
  life.rows.labs.push(
    {
      lab_id: nextId(life, "L"),
      patient_id: person.id,
      collected_at: collected,
      test: random.chance(0.3) ? "2956-1" : "urine_sodium_24h",
      value: mmol,
      unit,
      status: "final",
    },
    {
      lab_id: nextId(life, "L"),
      patient_id: person.id,
      collected_at: collected,
      test: "urine_creatinine_24h",
      value: (
        partCollected(day) * Math.max(4, random.normal(person.bodySex === "female" ? 9.5 : 13.5, 2))
      ).toFixed(1),
      unit: "mmol/d",
      status: "final",
    },
  )
  life.notes.sodium.push({ day, mg: mmol * milligramsPerMillimole, series: "24-hour urine" })
}
