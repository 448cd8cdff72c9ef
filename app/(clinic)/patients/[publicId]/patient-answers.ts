import { paramsOf } from "../../../../lib/engine/compute"
import { ask } from "../../../_http/ask"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { measures } from "../../../../lib/measures/index"
import { listedAllergies, type ListedAllergy } from "../../../../lib/questions/listed-allergies"
import { patientCautions } from "../../../../lib/questions/patient-cautions"
import {
  patientClassGuidance,
  type PatientClassGuidance,
} from "../../../../lib/questions/patient-class-guidance"
import { patientConditions } from "../../../../lib/questions/patient-conditions"
import { patientCourses } from "../../../../lib/questions/patient-courses"
import { patientDiet } from "../../../../lib/questions/patient-diet"
import { patientEvidence } from "../../../../lib/questions/patient-evidence"
import { patientIdentity, type PatientIdentity } from "../../../../lib/questions/patient-identity"
import { patientLabs } from "../../../../lib/questions/patient-labs"
import { patientMonitoringEvidence } from "../../../../lib/questions/patient-monitoring-evidence"
import { patientPotassiumAdvice } from "../../../../lib/questions/patient-potassium-advice"
import { patientPressures } from "../../../../lib/questions/patient-pressures"
import { patientResistance } from "../../../../lib/questions/patient-resistance"
import { patientSodium } from "../../../../lib/questions/patient-sodium"
import { patientSurvivor } from "../../../../lib/questions/patient-survivor"
import {
  patientStatementRows,
  type PatientStatementRows,
} from "../../../../lib/questions/patient-statement-rows"
import { patientStandings } from "../../../../lib/questions/patient-standings"
import { patientVisits } from "../../../../lib/questions/patient-visits"
import { findPatientId } from "../../../../lib/store/patients"
import { inCallerScope } from "../../../_http/in-caller-scope"

export type PatientAnswers = {
  person: PatientIdentity
  line: Awaited<ReturnType<typeof lineFacts>>
  held: Awaited<ReturnType<typeof standingFacts>>
  diet: Awaited<ReturnType<typeof dietFacts>>
  guidance: readonly PatientClassGuidance[]
  allergies: readonly ListedAllergy[]
  /** The rows that statements of the screen rest on. */
  behind: readonly PatientStatementRows[]
}

/** Everything the screen of one person says on one day; null when nobody has the id. */
export async function patientAnswers(
  snapshot: SnapshotMeta,
  publicId: string,
  asOf: string,
): Promise<PatientAnswers | null> {
  const { settings } = snapshot
  const params = { public_id: publicId, as_of: asOf, home_window_days: settings["bp.homeWindowDays"] }
  const withSettings = { ...params, ...paramsOf(measures, settings) }
  const [people, line, held, diet, guidance, allergies, behind] = await Promise.all([
    ask(patientIdentity, params),
    lineFacts(params),
    standingFacts(withSettings),
    dietFacts(withSettings),
    ask(patientClassGuidance, { public_id: publicId, as_of: asOf }),
    ask(listedAllergies, { listed_ids: publicId, as_of: asOf }),
    ask(patientStatementRows, params),
  ])
  const person = people[0]
  return person ? { person, line, held, diet, guidance, allergies, behind } : null
}

/** Whose page an old address leads to: that of the person into whose record another was merged; null for nobody. */
export async function survivorOf(publicId: string): Promise<string | null> {
  const recordId = await inCallerScope((client) => findPatientId(client, publicId))
  const [survivor] = recordId === null ? [] : await ask(patientSurvivor, { record_id: recordId })
  return survivor?.public_id ?? null
}

async function lineFacts(params: Params) {
  const [pressures, courses, labs, diet, visits] = await Promise.all([
    ask(patientPressures, params),
    ask(patientCourses, params),
    ask(patientLabs, params),
    ask(patientDiet, params),
    ask(patientVisits, params),
  ])
  return { pressures, courses, labs, diet, visits }
}

async function dietFacts(params: Params) {
  const [sodium, potassium] = await Promise.all([
    ask(patientSodium, params),
    ask(patientPotassiumAdvice, params),
  ])
  return { sodium: sodium[0] ?? null, potassium }
}

async function standingFacts(params: Params) {
  const [standings, conditions, evidence, monitoring, cautions, resistance] = await Promise.all([
    ask(patientStandings, params),
    ask(patientConditions, params),
    ask(patientEvidence, params),
    ask(patientMonitoringEvidence, params),
    ask(patientCautions, params),
    ask(patientResistance, params),
  ])
  return {
    standings,
    holds: conditions[0]?.holds ?? [],
    evidence: [...evidence, ...monitoring],
    cautions,
    resistance: resistance[0]?.holds ?? null,
  }
}

type Params = Parameters<typeof ask>[1]
