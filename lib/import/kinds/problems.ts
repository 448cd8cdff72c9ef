import type { FileKind } from "../file-kind"

export const problems: FileKind = {
  kind: "problems",
  required: ["patient_id"],
  optional: [
    ...["code_system", "code", "description", "onset_on", "resolved_on", "recorded_on", "verification"],
    "problem_id",
  ],
  read(cells) {
    const patientId = cells.need.id("patient_id")
    const problemId = cells.id("problem_id")
    if (problemId !== null && cells.identify({ id: problemId })) return null
    const code = cells.text("code")
    // A code without a system is read as ICD-10.
    const codeSystem =
      cells.word("code_system", ["icd10cm", "icd10", "snomed"]) ?? (code === null ? null : "icd10")
    const description = cells.text("description")
    const onsetOn = cells.eventDate("onset_on")
    if (code === null && description === null)
      cells.reject(
        "code",
        "missing-value",
        "is empty, and so is the description; every row needs one of them",
      )
    const parts = [patientId, codeSystem, code ?? description, onsetOn]
    if (problemId === null && cells.identify({ parts })) return null
    const resolvedOn = cells.date("resolved_on")
    cells.ends({ column: "resolved_on", day: resolvedOn }, { column: "onset_on", day: onsetOn })
    return [
      patientId,
      problemId,
      codeSystem,
      code,
      description,
      onsetOn,
      resolvedOn,
      cells.eventDate("recorded_on"),
      cells.word("verification", ["confirmed", "provisional", "refuted"]) ?? "confirmed",
    ]
  },
}
