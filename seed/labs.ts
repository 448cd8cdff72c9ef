import { textOf, timeOf, wholeYearsBetween, type Day } from "./calendar"
import type { Row } from "./extract-columns"
import { acrOn, drawCreatinine, drawPotassium, egfrFor, egfrOn } from "./kidney"
import { nextId, treatmentsOf, type Life } from "./life"

type Result = { test: string; loinc: string; value: string | number; unit: string; haemolysed?: boolean }

const umolPerMg = 88.4
const mgPerGPerMgPerMmol = 8.84

/** One result as the site's laboratory sends it: Northgate's with LOINC codes and ids, Riverside's in words. */
function writeResult(life: Life, time: string, result: Result): void {
  const { random, person } = life
  const isNorthgate = person.site === "Northgate"
  const row: Row<"labs"> = {
    lab_id: isNorthgate || random.chance(0.6) ? nextId(life, "L") : "",
    patient_id: person.id,
    collected_at: time,
    test: isNorthgate && random.chance(0.75) && result.loinc !== "" ? result.loinc : result.test,
    value: result.value,
    unit: result.unit,
    status: random.chance(0.8) ? "final" : "",
    haemolysed: result.haemolysed === true ? "yes" : "",
    analyser: isNorthgate ? "N2" : "",
  }
  if (row.lab_id !== "" && random.chance(0.004)) life.rows.labs.push({ ...row, status: "preliminary" })
  life.rows.labs.push(row)
}

function sampleTime(life: Life, day: Day): string {
  const style = life.random.unit()
  if (style < 0.04) return textOf(day)
  const time = timeOf(day, 7 * 60 + life.random.whole(0, 540))
  return style < 0.1 ? `${time.replace("T", " ")}:00` : `${time}:00`
}

/** Takes blood for kidney function and potassium (and often more). Returns what was found. */
export function takeBloods(life: Life, day: Day): { egfr: number; potassium: number | null } {
  const { random, person } = life
  const time = sampleTime(life, day)
  const treatments = treatmentsOf(life, day)
  const latent = egfrOn(life.kidney, day, treatments)
  const creatinine = drawCreatinine({ person, egfr: latent, day, random })
  const found = egfrFor({
    creatinineMgDl: creatinine,
    ageYears: Math.max(18, wholeYearsBetween(person.birth, day)),
    sex: person.bodySex,
  })
  writeCreatinine(life, time, creatinine)
  life.notes.egfr.push({ day, egfr: found })

  const reportsEgfr = random.chance(person.site === "Riverside" ? 0.7 : 0.25)
  if (reportsEgfr) {
    const reported = person.site === "Northgate" && found > 60 ? ">60" : Math.max(2, Math.round(found))
    writeResult(life, time, {
      test: "egfr",
      loinc: "98979-8",
      value: reported,
      unit: random.pick(["mL/min/{1.73_m2}", "mL/min/1.73m2", "", "mL/min"]),
    })
  }
  const potassium = random.chance(0.955) ? takePotassium(life, { day, time, egfr: latent }) : null
  takeOthers(life, time, latent)
  return { egfr: found, potassium }
}

export function writeCreatinine(life: Life, time: string, mgDl: number): void {
  const isMolar = life.person.site === "Riverside" && life.random.chance(0.45)
  writeResult(
    life,
    time,
    isMolar
      ? {
          test: "creatinine",
          loinc: "14682-9",
          value: Math.round(mgDl * umolPerMg),
          unit: life.random.pick(["umol/L", "µmol/L", "umol/l"]),
        }
      : { test: "creatinine", loinc: "2160-0", value: mgDl.toFixed(2), unit: "mg/dL" },
  )
}

export function takePotassium(life: Life, options: { day: Day; time: string; egfr: number }): number {
  const { random, kidney } = life
  const { day, time, egfr } = options
  const potassium = drawPotassium({ kidney, egfr, treatments: treatmentsOf(life, day), random })
  const isHaemolysed = random.chance(0.018)
  const shown = Math.min(8.6, isHaemolysed ? potassium + random.between(0.6, 1.6) : potassium)
  writeResult(life, time, {
    test: "potassium",
    loinc: "2823-3",
    value: shown.toFixed(1),
    unit: random.pick(["mmol/L", "mmol/L", "mEq/L"]),
    haemolysed: isHaemolysed,
  })
  if (!isHaemolysed) life.notes.potassium.push({ day, mmol: Math.round(potassium * 10) / 10 })
  return shown
}

/** Bicarbonate and haemoglobin often, HbA1c in diabetes, now and then something the contract does not list. */
function takeOthers(life: Life, time: string, egfr: number): void {
  const { random, person } = life
  if (random.chance(0.75)) {
    const bicarbonate = Math.min(34, Math.max(12, random.normal(25.5 - Math.max(0, 45 - egfr) * 0.12, 2.2)))
    writeResult(life, time, {
      test: "bicarbonate",
      loinc: "1963-8",
      value: Math.round(bicarbonate),
      unit: "mmol/L",
    })
  }
  if (random.chance(0.7)) {
    const gPerDl = Math.min(17.5, Math.max(6.8, random.normal(13.3 - Math.max(0, 45 - egfr) * 0.06, 1.3)))
    const isPerLitre = person.site === "Riverside" && random.chance(0.5)
    writeResult(life, time, {
      test: "haemoglobin",
      loinc: "718-7",
      value: isPerLitre ? Math.round(gPerDl * 10) : gPerDl.toFixed(1),
      unit: isPerLitre ? "g/L" : "g/dL",
    })
  }
  if (person.hasDiabetes && random.chance(0.5)) {
    const percent = Math.min(13, Math.max(5.1, random.normal(7.4, 1.2)))
    const isMolar = person.site === "Riverside" && random.chance(0.4)
    writeResult(life, time, {
      test: "hba1c",
      loinc: "4548-4",
      value: isMolar ? Math.round((percent - 2.152) * 10.929) : percent.toFixed(1),
      unit: isMolar ? "mmol/mol" : "%",
    })
  }
  if (random.chance(0.05))
    writeResult(life, time, {
      test: "cystatin_c",
      loinc: "33863-2",
      value: Math.max(0.6, 70 / Math.max(14, egfr)).toFixed(2),
      unit: "mg/L",
    })
  if (random.chance(0.4)) {
    const mgPerDl = Math.max(1.8, random.normal(3.5 + Math.max(0, 40 - egfr) * 0.03, 0.5))
    writeResult(life, time, { test: "2777-1", loinc: "2777-1", value: mgPerDl.toFixed(1), unit: "mg/dL" })
  }
  if (random.chance(0.3)) {
    writeResult(life, time, {
      test: "17861-6",
      loinc: "17861-6",
      value: random.normal(9.3, 0.5).toFixed(1),
      unit: "mg/dL",
    })
  }
}

/** Takes urine for albumin (or protein). Returns the ACR found, in mg/g. */
export function takeUrine(life: Life, day: Day): number {
  const { random, kidney, person } = life
  const time = sampleTime(life, day)
  const found = Math.max(0.6, acrOn(kidney, day, treatmentsOf(life, day)) * Math.exp(random.normal(0, 0.38)))
  life.notes.urine.push({ day, acr: found })
  if (kidney.usesPcr) {
    const pcr = Math.min(30000, found * 1.5 + 75)
    const isMolar = person.site === "Riverside"
    writeResult(life, time, {
      test: "upcr",
      loinc: "2890-2",
      value: isMolar ? Math.round(pcr / mgPerGPerMgPerMmol) : Math.round(pcr),
      unit: isMolar ? "mg/mmol" : "mg/g",
    })
    return found
  }
  writeResult(life, time, acrResult(life, found))
  if (random.chance(0.06)) {
    const strip =
      found < 20 ? "negative" : found < 80 ? "trace" : found < 300 ? "1+" : found < 1000 ? "2+" : "3+"
    writeResult(life, time, { test: "urine_dipstick_protein", loinc: "", value: strip, unit: "" })
  }
  if (found > 800 && random.chance(0.1)) {
    writeResult(life, time, {
      test: "urine_protein_24h",
      loinc: "2889-4",
      value: (found / 700).toFixed(1),
      unit: "g/d",
    })
  }
  return found
}

function acrResult(life: Life, mgPerG: number): Result {
  const { random, person } = life
  const test = "uacr"
  const loinc = "9318-7"
  const isMolar = person.site === "Riverside" && random.chance(0.55)
  if (isMolar) {
    const molar = mgPerG / mgPerGPerMgPerMmol
    return {
      test,
      loinc,
      value: molar < 0.6 ? "<0.6" : molar.toFixed(1),
      unit: random.pick(["mg/mmol", "g/mol", "mg/mmol"]),
    }
  }
  if (mgPerG < 5) return { test, loinc, value: random.pick(["<5", "< 5", "<5"]), unit: "mg/g" }
  if (mgPerG > 300 && random.chance(0.04)) return { test, loinc, value: ">300", unit: "mg/g" }
  return {
    test,
    loinc,
    value: mgPerG < 20 ? mgPerG.toFixed(1) : Math.round(mgPerG),
    unit: random.pick(["mg/g", "mg/g{creat}", "ug/mg", "mg/g"]),
  }
}
