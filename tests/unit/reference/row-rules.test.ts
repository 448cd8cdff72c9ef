import { describe, expect, it } from "vitest"
import { readExtract } from "../../reference/read-extract"
import { day } from "../../reference/day"

const patients = "patient_id,birth_date,sex,registered_on\nann,1960-01-01,female,2015-01-01\n"
const readingHeader = "patient_id,taken_at,systolic,diastolic,setting"

function read(files: Record<string, string | Uint8Array>) {
  return readExtract({
    open: (file) => {
      const written = files[file]
      return typeof written === "string" ? new TextEncoder().encode(written) : written
    },
    timeZone: "America/New_York",
    importDay: day("2026-01-02"),
  })
}

describe("the reference reads an extract", () => {
  it("with a byte order mark, CRLF, quoted new lines, empty lines and columns in any order and case", () => {
    const visits =
      '\ufeffKIND,Note,patient_id,visit_id,started_on\r\n\r\noffice,"two\r\nlines, ""quoted""",ann,v1,2025-01-01\r\n'

    const { facts, rejected } = read({ "patients.csv": patients, "visits.csv": visits })

    expect(facts.visits).toHaveLength(1)
    expect(rejected["visits.csv"]).toBe(0)
  })

  it("losing only the bad row", () => {
    const rows = [
      "ann,2025-01-01,128,78,office",
      "ann,2025-01-02,128,office",
      "ann,2025-01-03,301,78,office",
      "ann,x,1,1,office",
    ]

    const { facts, rejected } = read({
      "patients.csv": patients,
      "readings.csv": [readingHeader, ...rows].join("\n"),
    })

    expect(facts.readings).toHaveLength(1)
    expect(rejected["readings.csv"]).toBe(3)
  })

  it("leaving out a file without a required column or with one named twice", () => {
    const noSetting = "patient_id,taken_at,systolic,diastolic\nann,2025-01-01,128,78\n"
    const twice = `${readingHeader},pulse,Pulse\nann,2025-01-01,128,78,office,70,70\n`

    expect(read({ "patients.csv": patients, "readings.csv": noSetting }).facts.readings).toEqual([])
    expect(read({ "patients.csv": patients, "readings.csv": twice }).facts.readings).toEqual([])
  })

  it("as Windows-1252 only when no byte sequence is valid UTF-8", () => {
    const latin = Buffer.from(patients.replace("ann", "zo\u00e9"), "latin1")
    const mixed = Buffer.concat([Buffer.from(patients.replace("ann", "zo\u00e9")), Buffer.from([0xe9])])

    expect(read({ "patients.csv": latin }).facts.patients.map((each) => each.patientId)).toEqual(["zo\u00e9"])
    expect(read({ "patients.csv": mixed }).facts.patients).toEqual([])
  })

  it("without facts of unknown patients, of the future, or from before the birth", () => {
    const rows = [
      "bob,2025-01-01,128,78,office",
      "ann,2026-01-04,128,78,office",
      "ann,1959-12-31,128,78,office",
    ]
    const kept = ["ann,2026-01-03,128,78,office", "ann,1960-01-01,128,78,office"]
    const text = [readingHeader, ...rows, ...kept].join("\n")

    const { facts } = read({ "patients.csv": patients, "readings.csv": text })

    expect(facts.readings).toHaveLength(2)
  })

  it("keeping the last line of a key but never a preliminary one over a final one", () => {
    const header = "patient_id,collected_at,test,value,unit,status,lab_id"
    const rows = [
      "ann,2025-01-01,uacr,20,mg/g,,a",
      "ann,2025-01-01,uacr,30,mg/g,corrected,a",
      "ann,2025-01-01,uacr,40,mg/g,preliminary,a",
    ]

    const { facts } = read({ "patients.csv": patients, "labs.csv": [header, ...rows].join("\n") })

    expect(facts.labs.map((result) => Number(result.value.over))).toEqual([30])
  })
})
