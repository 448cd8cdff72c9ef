import { textOfDay, yearsBefore, type Day } from "../calendar"
import type { Cells } from "../cells"
import type { FileKind } from "../file-kind"

const longestLifeYears = 120

export const patients: FileKind = {
  kind: "patients",
  required: ["patient_id", "birth_date", "sex", "registered_on"],
  optional: [
    ...["given_name", "family_name", "language", "interpreter_needed", "race", "ethnicity", "phone", "email"],
    ...[
      "postal_code",
      "preferred_contact",
      "do_not_contact",
      "clinician_id",
      "site",
      "left_on",
      "left_reason",
    ],
    ...["died_on", "merged_into", "is_test"],
  ],
  read(cells, { importDay, remarks }) {
    const patientId = cells.need.id("patient_id")
    if (cells.identify({ id: patientId })) return null
    const birth = readBirth(cells, importDay)
    const registeredOn = cells.need.eventDate("registered_on")
    const leftOn = cells.date("left_on")
    const diedOn = cells.eventDate("died_on")
    cells.ends({ column: "left_on", day: leftOn }, { column: "registered_on", day: registeredOn })
    cells.rejectEventsBefore(birth)
    const isTest = cells.yesOrNo("is_test")
    remarks.isTestPatient = isTest === true
    return [
      patientId,
      cells.text("given_name"),
      cells.text("family_name"),
      birth,
      cells.need.word("sex", ["female", "male", "unknown"]),
      cells.language("language"),
      cells.yesOrNo("interpreter_needed"),
      cells.list("race"),
      cells.text("ethnicity"),
      cells.text("phone"),
      cells.text("email"),
      cells.text("postal_code"),
      cells.word("preferred_contact", ["phone", "text", "email", "letter", "portal"]),
      cells.yesOrNo("do_not_contact"),
      cells.id("clinician_id"),
      cells.text("site"),
      registeredOn,
      leftOn,
      cells.word("left_reason", ["moved", "transferred", "discharged", "declined", "died"]),
      diedOn,
      cells.id("merged_into"),
      isTest,
    ]
  },
}

function readBirth(cells: Cells, importDay: Day): Day {
  const birth = cells.need.date("birth_date")
  const earliest = yearsBefore(importDay, longestLifeYears)
  if (birth > importDay || birth < earliest)
    cells.reject(
      "birth_date",
      "implausible",
      `must be from ${textOfDay(earliest)} to ${textOfDay(importDay)} (at most ${longestLifeYears} years back)`,
    )
  return birth
}
