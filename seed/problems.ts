import { textOf, type Day } from "./calendar"
import { egfrOn } from "./kidney"
import { nextId, treatmentsOf, type Life } from "./life"

type Problem = { code: string; description: string; snomed?: string }

const hypertension: Problem = {
  code: "I10",
  description: "Essential (primary) hypertension",
  snomed: "59621000",
}
const hypertensiveKidney: Problem = {
  code: "I12.9",
  description:
    "Hypertensive chronic kidney disease with stage 1 through stage 4 or unspecified chronic kidney disease",
}
const hypertensiveHeartKidney: Problem = {
  code: "I13.0",
  description: "Hypertensive heart and chronic kidney disease with heart failure, stage 1 through 4",
}
const type2Kidney: Problem = {
  code: "E11.22",
  description: "Type 2 diabetes mellitus with diabetic chronic kidney disease",
}
const type2: Problem = { code: "E11.9", description: "Type 2 diabetes mellitus without complications" }
const type1: Problem = {
  code: "E10.22",
  description: "Type 1 diabetes mellitus with diabetic chronic kidney disease",
}

/** Codes: ICD-10-CM; SNOMED CT concepts as bundled in published quality-measure value sets. */
function stageProblem(egfr: number): Problem {
  if (egfr >= 60) return { code: "N18.2", description: "Chronic kidney disease, stage 2 (mild)" }
  if (egfr >= 45)
    return { code: "N18.31", description: "Chronic kidney disease, stage 3a", snomed: "433144002" }
  if (egfr >= 30)
    return { code: "N18.32", description: "Chronic kidney disease, stage 3b", snomed: "433144002" }
  if (egfr >= 15)
    return { code: "N18.4", description: "Chronic kidney disease, stage 4 (severe)", snomed: "431857002" }
  return { code: "N18.5", description: "Chronic kidney disease, stage 5", snomed: "433146000" }
}

/** Writes the problem list a person brings along. */
export function writeProblemList(life: Life, day: Day): void {
  const { person, random } = life
  const egfr = egfrOn(life.kidney, day, treatmentsOf(life, day))
  const isAlbuminuric = life.kidney.lnAcrAtAnchor > Math.log(30)
  if ((egfr < 60 || isAlbuminuric) && random.chance(0.82)) writeStage(life, day, egfr)
  if (person.hasHypertension && random.chance(0.96)) {
    const problem =
      person.hasHeartFailure && random.chance(0.4)
        ? hypertensiveHeartKidney
        : random.chance(0.4)
          ? hypertensiveKidney
          : hypertension
    writeProblem(life, { problem, onset: day - random.whole(200, 7000) })
  }
  if (person.hasType1) writeProblem(life, { problem: type1, onset: day - random.whole(2500, 5500) })
  else if (person.hasDiabetes)
    writeProblem(life, {
      problem: random.chance(0.7) ? type2Kidney : type2,
      onset: day - random.whole(300, 6000),
    })
  if (person.hasHeartFailure) {
    const code = random.pick(["I50.22", "I50.32", "I50.9"])
    writeProblem(life, {
      problem: { code, description: "Heart failure" },
      onset: day - random.whole(60, 2500),
    })
  }
  if (person.hasAtrialFibrillation) {
    const code = random.pick(["I48.0", "I48.20", "I48.91"])
    writeProblem(life, {
      problem: { code, description: "Atrial fibrillation" },
      onset: day - random.whole(60, 2500),
    })
  }
  writeOthers(life, day)
}

const others: readonly Problem[] = [
  { code: "E78.5", description: "Hyperlipidemia, unspecified" },
  { code: "D63.1", description: "Anemia in chronic kidney disease" },
  { code: "M10.9", description: "Gout, unspecified" },
  {
    code: "I25.10",
    description: "Atherosclerotic heart disease of native coronary artery without angina pectoris",
  },
  { code: "E66.9", description: "Obesity, unspecified" },
  { code: "Q61.2", description: "Polycystic kidney, adult type" },
  {
    code: "N02.8",
    description: 'Recurrent and persistent hematuria with other morphologic changes, "IgA nephropathy"',
  },
  { code: "G47.33", description: "Obstructive sleep apnea (adult)" },
  { code: "J44.9", description: "Chronic obstructive pulmonary disease, unspecified" },
  { code: "N40.1", description: "Benign prostatic hyperplasia with lower urinary tract symptoms" },
]

function writeOthers(life: Life, day: Day): void {
  const { random } = life
  for (const problem of others) {
    if (random.chance(0.13)) writeProblem(life, { problem, onset: day - random.whole(30, 4000) })
  }
  if (random.chance(0.03)) {
    writeProblem(life, {
      problem: { code: "I10", description: "Essential (primary) hypertension" },
      onset: day - random.whole(30, 900),
      verification: "refuted",
    })
  }
  if (random.chance(0.035)) {
    writeProblem(life, {
      problem: { code: "N18.9", description: "Chronic kidney disease, unspecified" },
      onset: day - random.whole(30, 900),
      verification: "provisional",
    })
  }
  if (random.chance(0.02)) {
    life.rows.problems.push({
      problem_id: nextId(life, "P"),
      patient_id: life.person.id,
      description: "Reduced kidney function, seen by outside clinic\nsee letter",
      recorded_on: textOf(day - random.whole(10, 400)),
    })
  }
}

/** The stage on the problem list follows the function late, and sometimes not at all. */
export function reviewStage(life: Life, day: Day): void {
  const { rows, random } = life
  if (life.dialysisFrom !== null || life.transplantFrom !== null || !random.chance(0.45)) return
  const egfr = egfrOn(life.kidney, day, treatmentsOf(life, day))
  const index = rows.problems.findLastIndex((row) => isOpenStage(row.code, row.resolved_on))
  const open = rows.problems[index]
  if (!open || codeOf(stageProblem(egfr), open.code_system) === open.code) return
  rows.problems[index] = { ...open, resolved_on: textOf(day) }
  writeStage(life, day, egfr)
}

function writeStage(life: Life, day: Day, egfr: number): void {
  writeProblem(life, { problem: stageProblem(egfr), onset: day })
}

const stageCodes: readonly unknown[] = [
  "N18.2",
  "N18.31",
  "N18.32",
  "N18.4",
  "N18.5",
  "433144002",
  "431857002",
  "433146000",
]

function isOpenStage(code: unknown, resolved: unknown): boolean {
  return stageCodes.includes(code) && (resolved === undefined || resolved === "")
}

function codeOf(problem: Problem, system: unknown): string {
  return system === "snomed" ? (problem.snomed ?? problem.code) : problem.code
}

export function writeProblem(
  life: Life,
  entry: { problem: Problem; onset: Day; resolved?: Day; verification?: "provisional" | "refuted" },
): void {
  const { random, person } = life
  const { problem } = entry
  const isSnomed = problem.snomed !== undefined && random.chance(0.08)
  const onset = Math.max(entry.onset, person.birth + 30)
  const hasOnset = random.chance(0.88)
  life.rows.problems.push({
    problem_id: nextId(life, "P"),
    patient_id: person.id,
    code_system: isSnomed ? "snomed" : random.chance(0.95) ? "icd10cm" : "",
    code: isSnomed
      ? (problem.snomed ?? "")
      : random.chance(0.1)
        ? problem.code.replace(".", "")
        : problem.code,
    description: random.chance(0.85) ? problem.description : "",
    onset_on: hasOnset ? textOf(onset) : "",
    resolved_on: entry.resolved === undefined ? "" : textOf(entry.resolved),
    recorded_on: hasOnset && random.chance(0.3) ? "" : textOf(onset),
    verification: entry.verification ?? (random.chance(0.4) ? "confirmed" : ""),
  })
}

/** Falls or dizziness that led to a drug being taken away; nothing is drawn, so that the rest of the story stays as it is. */
export function writeFalls(life: Life, entry: { day: Day; reason: "falls" | "dizzy on standing" }): void {
  const { rows, person } = life
  const problem: Problem =
    entry.reason === "falls"
      ? { code: "R29.6", description: "Repeated falls" }
      : { code: "R42", description: "Dizziness and giddiness" }
  if (rows.problems.some((row) => row.code === problem.code)) return
  rows.problems.push({
    problem_id: `F${person.id}-${problem.code}`,
    patient_id: person.id,
    code_system: "icd10cm",
    code: problem.code,
    description: problem.description,
    onset_on: textOf(entry.day),
    recorded_on: textOf(entry.day),
    verification: "confirmed",
  })
}

/** Pregnancy in a few of the younger women, palliative care for a few of the sickest. */
export function writeLaterProblems(life: Life): void {
  const { person, period, random } = life
  const ageAtStart = (period.start - person.birth) / 365.25
  if (person.bodySex === "female" && ageAtStart < 44 && random.chance(0.25)) {
    const onset = random.whole(period.start, period.through)
    const problem = random.pick([
      {
        code: "O10.219",
        description: "Pre-existing hypertensive chronic kidney disease complicating pregnancy",
      },
      { code: "Z34.90", description: "Encounter for supervision of normal pregnancy" },
    ])
    const delivered = onset + 250
    writeProblem(life, {
      problem,
      onset,
      ...(delivered < period.through && random.chance(0.6) ? { resolved: delivered } : {}),
    })
  }
  if (life.palliativeFrom !== null) {
    writeProblem(life, {
      problem: { code: "Z51.5", description: "Encounter for palliative care" },
      onset: life.palliativeFrom,
    })
  }
}
