import type { PatientStatementRows } from "../../../../lib/questions/patient-statement-rows"

/** The import rows that a statement rests on; none where it rests on the absence of a fact. */
export function statementSources(
  behind: readonly PatientStatementRows[],
  about: PatientStatementRows["about"],
  id: string,
): readonly string[] {
  return behind.find((one) => one.about === about && one.id === id)?.sources ?? []
}

/** The rows of a reason to contact as a case holds it, while the case speaks of the same fact as the figures. */
export function reasonSources(
  behind: readonly PatientStatementRows[],
  held: { reason: string; factOn: string | null },
): readonly string[] {
  const known = behind.find((one) => one.about === "reason" && one.id === held.reason)
  return known?.fact_on === held.factOn ? known.sources : []
}
