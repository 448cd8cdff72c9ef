import { describe, expect, test } from "vitest"
import { chosenColumns } from "../../../app/(clinic)/patients/chosen"
import { panelColumns } from "../../../app/(clinic)/patients/columns"
import { csvOf } from "../../../app/(clinic)/patients/csv"
import { find, searchTexts } from "../../../app/(clinic)/patients/find"
import {
  parsePatientsAddress,
  parsePatientsView,
  patientsHref,
  toggled,
} from "../../../app/(clinic)/patients/search-params"
import { panelFor } from "../../helpers/panel"

describe("the address holds the view", () => {
  test("a view read back from its address is the same view", () => {
    const view = {
      ...parsePatientsView({ month: "2026-03", sort: "-acr" }),
      pressure: ["above target", "not measured"],
      clinician: ["Dr Ames, Nora", "not assigned"],
      columns: ["age", "acr"],
    }
    const address = new URL(patientsHref(view), "http://clinic.test")

    expect(parsePatientsAddress(address.searchParams)).toEqual(view)
  })

  test("what is not chosen stays out of the address", () => {
    expect(patientsHref(parsePatientsView({}))).toBe("/patients")
    expect(patientsHref(parsePatientsView({ month: "2026-13" }))).toBe("/patients")
  })

  test("a second press on a part lets it go", () => {
    const once = toggled(parsePatientsView({}), "g", "G4")

    expect(once.g).toEqual(["G4"])
    expect(toggled(once, "g", "G4").g).toEqual([])
  })

  test("columns come in the order of the address, the name first, unknown ones left out", () => {
    const view = parsePatientsView({ columns: ["site", "age", "nonsense", "site"] })

    expect(chosenColumns(panelColumns([]), view, true).map((column) => column.id)).toEqual([
      "name",
      "site",
      "age",
    ])
  })

  test("the next visit is a first column of the running month only", () => {
    const shown = (isRunning: boolean) =>
      chosenColumns(panelColumns([]), parsePatientsView({}), isRunning).map((column) => column.id)

    expect(shown(true)).toContain("next-visit")
    expect(shown(false)).not.toContain("next-visit")
  })
})

describe("a person is found by name or number", () => {
  const texts = searchTexts(
    panelFor([
      { family_name: "Ibáñez", given_name: "Inés", patient_id: "LK-000123" },
      { family_name: "Nesbit", given_name: "Ian", patient_id: "LK-000777" },
    ]),
  )

  test.each([
    ["ines", [1, 0]],
    ["INÉS ibanez", [1, 0]],
    ["ibáñez, in", [1, 0]],
    ["777", [0, 1]],
    ["nes", [1, 1]],
    ["nobody", [0, 0]],
  ])("%s", (query, marks) => {
    expect([...(find(texts, query) ?? [])]).toEqual(marks)
  })

  test("blanks alone look for nobody in particular", () => {
    expect(find(texts, "  ")).toBeNull()
  })
})

describe("a list saved as CSV", () => {
  test("quotes what needs it and defuses what a spreadsheet would run", () => {
    expect(
      csvOf([
        ["Name", "ACR"],
        ['O"Hara, Nell', "=1+1"],
        ["-5", "@x"],
        ["-5+3", "+1"],
      ]),
    ).toBe("Name,ACR\r\n\"O\"\"Hara, Nell\",'=1+1\r\n-5,'@x\r\n'-5+3,'+1\r\n")
  })
})
