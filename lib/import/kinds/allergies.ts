import type { FileKind } from "../file-kind"

const reactions = [
  ...(["angioedema", "anaphylaxis", "cough", "rash", "hyperkalaemia"] as const),
  ...(["kidney injury", "hypotension", "other"] as const),
]

export const allergies: FileKind = {
  kind: "allergies",
  required: ["patient_id", "substance"],
  optional: ["reaction", "kind", "recorded_on"],
  read(cells) {
    const patientId = cells.need.id("patient_id")
    const substance = cells.need.text("substance")
    const reaction = cells.word("reaction", reactions)
    if (cells.identify({ parts: [patientId, substance, reaction] })) return null
    return [
      patientId,
      substance,
      reaction,
      cells.word("kind", ["allergy", "intolerance"]),
      cells.eventDate("recorded_on"),
    ]
  },
}
