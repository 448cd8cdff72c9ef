import { describe, expect, test } from "vitest"
import { chosenSort, pressedSort } from "../../../app/(clinic)/patients/chosen"
import { panelColumns } from "../../../app/(clinic)/patients/columns"
import { nameOrder, ordered } from "../../../app/(clinic)/patients/order"
import { parsePatientsView } from "../../../app/(clinic)/patients/search-params"
import { panelFor, type PanelRow } from "../../helpers/panel"

describe("the list is ordered by any column", () => {
  test("names go by the alphabet, accents and all, then by given name and number", () => {
    const rows = [
      { family_name: "Zeller", given_name: "Ann", patient_id: "1" },
      { family_name: "Ibsen", given_name: "Per", patient_id: "3" },
      { family_name: "Ibsen", given_name: "Per", patient_id: "2" },
      { family_name: "Ibáñez", given_name: "Ana", patient_id: "4" },
      { family_name: "de Vries", given_name: "Jo", patient_id: "5" },
    ]

    expect(byName(rows)).toEqual(["5", "4", "2", "3", "1"])
  })

  test("missing values stand last in both directions", () => {
    const rows = [
      { patient_id: "none", egfr: null },
      { patient_id: "low", egfr: 20 },
      { patient_id: "high", egfr: 80 },
    ]

    expect(sortedBy("egfr", rows)).toEqual(["low", "high", "none"])
    expect(sortedBy("-egfr", rows)).toEqual(["high", "low", "none"])
  })

  test("equal values keep the order of names", () => {
    const rows = [
      { patient_id: "b", family_name: "B", egfr: 50 },
      { patient_id: "a", family_name: "A", egfr: 50 },
    ]

    expect(sortedBy("egfr", rows)).toEqual(["a", "b"])
    expect(sortedBy("-egfr", rows)).toEqual(["a", "b"])
  })

  test("pressures go by systolic, then by diastolic", () => {
    const rows = [
      { patient_id: "140/90", systolic: 140, diastolic: 90 },
      { patient_id: "140/80", systolic: 140, diastolic: 80 },
      { patient_id: "139/99", systolic: 139, diastolic: 99 },
    ]

    expect(sortedBy("pressure", rows)).toEqual(["139/99", "140/80", "140/90"])
  })

  test("a result under or over its number stands just beside the number", () => {
    const rows = [
      { patient_id: "5", acr: 5 },
      { patient_id: ">5", acr: 5, acr_comparator: ">" },
      { patient_id: "<5", acr: 5, acr_comparator: "<" },
    ]

    expect(sortedBy("acr", rows)).toEqual(["<5", "5", ">5"])
  })

  test("stages go by G and within it by A, whatever their letters", () => {
    const rows = [
      { patient_id: "G3b A1", g: "G3b", a: "A1" },
      { patient_id: "G3a A3", g: "G3a", a: "A3" },
      { patient_id: "G3a", g: "G3a", a: null },
      { patient_id: "G2 A2", g: "G2", a: "A2" },
    ]

    expect(sortedBy("stage", rows)).toEqual(["G2 A2", "G3a A3", "G3a", "G3b A1"])
  })

  test("a second press on a head turns the order round", () => {
    const columns = panelColumns([])
    const egfr = columns.find((column) => column.id === "egfr")
    if (!egfr) throw new Error("no such column")
    const first = pressedSort(chosenSort(columns, parsePatientsView({})), egfr)
    const second = pressedSort(chosenSort(columns, parsePatientsView({ sort: first ?? undefined })), egfr)

    expect([first, second]).toEqual(["egfr", "-egfr"])
  })
})

function byName(rows: readonly PanelRow[]): (string | null)[] {
  const panel = panelFor(rows)
  return Array.from(nameOrder(panel), (row) => panel.text("patient_id", row))
}

function sortedBy(sort: string, rows: readonly PanelRow[]): (string | null)[] {
  const panel = panelFor(rows)
  const chosen = chosenSort(panelColumns([]), parsePatientsView({ sort }))
  if (!chosen) throw new Error("no such column")
  const order = ordered(nameOrder(panel), chosen.column.keys(panel), chosen.direction)
  return Array.from(order, (row) => panel.text("patient_id", row))
}
