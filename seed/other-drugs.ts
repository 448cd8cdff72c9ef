import { textOf, type Day } from "./calendar"
import type { Row } from "./extract-columns"
import { nextId, type Life } from "./life"

type OtherDrug = {
  text: string
  dose?: number
  unit?: string
  times?: number
  route?: string
  asNeeded?: boolean
  share: number
}

/** Drugs that no pressure class counts, some of which look as if they should. */
const everyday: readonly OtherDrug[] = [
  { text: "Atorvastatin 40 mg tablet", dose: 40, unit: "mg", times: 1, share: 0.42 },
  { text: "rosuvastatin 10mg", dose: 10, unit: "mg", times: 1, share: 0.14 },
  { text: "Aspirin 81 mg", dose: 81, unit: "mg", times: 1, share: 0.3 },
  { text: "Allopurinol 100 mg tablets", dose: 100, unit: "mg", times: 1, share: 0.14 },
  { text: "Sodium bicarbonate 650 mg", dose: 650, unit: "mg", times: 3, share: 0.12 },
  { text: "Cholecalciferol 1000 units", dose: 1000, unit: "unit", times: 1, share: 0.25 },
  { text: "Omeprazole 20 mg capsule", dose: 20, unit: "mg", times: 1, share: 0.24 },
  { text: "Levothyroxine 75 micrograms", dose: 75, unit: "ug", times: 1, share: 0.1 },
  { text: "Ferrous sulfate 325 mg", dose: 325, unit: "mg", times: 1, share: 0.1 },
  { text: "Epoetin alfa 4000 units injection", dose: 4000, unit: "unit", route: "subcutaneous", share: 0.05 },
  { text: "Ibuprofen 400 mg", dose: 400, unit: "mg", times: 3, asNeeded: true, share: 0.06 },
  { text: "Naproxen 500 mg tablet", dose: 500, unit: "mg", times: 2, share: 0.025 },
  { text: "Paracetamol 500 mg tablets", dose: 1000, unit: "mg", times: 4, asNeeded: true, share: 0.08 },
  { text: "Timolol 0.5% eye drops", times: 2, route: "ophthalmic", share: 0.04 },
  { text: "Brimonidine 0.2 % ophthalmic solution", times: 2, route: "eye", share: 0.015 },
  { text: "Clonidine 0.1 mg tablet", dose: 0.1, unit: "mg", asNeeded: true, share: 0.018 },
  { text: "Hydralazine 25 mg", dose: 25, unit: "mg", asNeeded: true, share: 0.012 },
  { text: "Metolazone 2.5 mg", dose: 2.5, unit: "mg", asNeeded: true, share: 0.02 },
  { text: "Tamsulosin 0.4 mg capsule", dose: 0.4, unit: "mg", times: 1, share: 0.09 },
  { text: "Isosorbide mononitrate ER 30 mg", dose: 30, unit: "mg", times: 1, share: 0.05 },
  { text: "Minoxidil 5% topical foam", route: "topical", share: 0.006 },
  { text: "Patiromer 8.4 g sachet", dose: 8.4, unit: "g", times: 1, share: 0.025 },
  { text: "Sodium zirconium cyclosilicate 5 g", dose: 5, unit: "g", times: 1, share: 0.02 },
  { text: "Multivitamin", share: 0.1 },
]

const forDiabetes: readonly OtherDrug[] = [
  { text: "Metformin 500 mg", dose: 500, unit: "mg", times: 2, share: 0.35 },
  {
    text: "Insulin glargine 100 units/mL pen",
    dose: 22,
    unit: "unit",
    times: 1,
    route: "subcutaneous",
    share: 0.35,
  },
  { text: "Linagliptin 5 mg", dose: 5, unit: "mg", times: 1, share: 0.15 },
  { text: "Semaglutide 0.5 mg weekly", dose: 0.5, unit: "mg", route: "subcutaneous", share: 0.14 },
  { text: "Finerenone 10 mg tablet", dose: 10, unit: "mg", times: 1, share: 0.06 },
]

/** Texts that map to nothing: a study drug, a local shorthand, a slip of the keyboard. */
const unreadable = [
  "Study drug LK-204 or placebo",
  "BP tab (white, round)",
  "Amlodpine 5",
  "as per cardiology letter",
] as const

/** Writes the drugs beside the counted ones. */
export function writeOtherDrugs(life: Life, day: Day): void {
  const { person, random } = life
  for (const drug of everyday) if (random.chance(drug.share)) writeOther(life, drug, day)
  if (person.hasDiabetes)
    for (const drug of forDiabetes) if (random.chance(drug.share)) writeOther(life, drug, day)
  if (person.hasAtrialFibrillation)
    writeOther(life, { text: "Apixaban 5 mg tablet", dose: 5, unit: "mg", times: 2, share: 1 }, day)
  if (random.chance(0.0035)) writeOther(life, { text: random.pick(unreadable), share: 1 }, day)
}

/** SGLT2 inhibitors come in year by year. */
export function startSglt2(life: Life, day: Day): void {
  const { random } = life
  life.sglt2From = day
  const drug = random.pick([
    "Dapagliflozin 10 mg tablet",
    "Empagliflozin 10 mg tablet",
    "dapagliflozin propanediol 10mg",
    "empagliflozin 10 mg",
  ])
  life.rows.medications.push({
    ...orderOf(life, { text: drug, dose: 10, unit: "mg", times: 1, share: 1 }),
    started_on: textOf(day),
  })
}

function writeOther(life: Life, drug: OtherDrug, day: Day): void {
  const { random, period } = life
  const isNew = random.chance(0.35)
  const started = isNew
    ? random.whole(Math.min(day, period.through - 1), period.through - 1)
    : day - random.whole(20, 2500)
  const lasts = random.wait(2200)
  const stopped = started + Math.max(7, Math.round(lasts))
  life.rows.medications.push({
    ...orderOf(life, drug),
    started_on: textOf(started),
    stopped_on: stopped <= period.through ? textOf(stopped) : "",
  })
}

function orderOf(life: Life, drug: OtherDrug): Row<"medications"> {
  return {
    order_id: nextId(life, "M"),
    patient_id: life.person.id,
    drug: drug.text,
    dose: drug.dose ?? "",
    dose_unit: drug.unit ?? "",
    times_per_day: drug.times ?? "",
    as_needed: drug.asNeeded === true ? "yes" : "",
    route: drug.route ?? "",
  }
}
