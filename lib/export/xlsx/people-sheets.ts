import type { Standing } from "../../domain/standings"
import { reportedMeasures, type MonthReport } from "../../figures/month-report"
import { sentenceCase } from "../../speech/format"
import { measureWords, standingWords } from "../../speech/measure-words"
import type { PersonRow } from "../person-row"
import { day, decimal, text, whole, type XlsxCell } from "./cells"
import { tableSheet, type Column, type XlsxSheet } from "./sheet"

type OnMeasure = { measure_id: string; patient_id: string; standing: Standing; reasons: readonly string[] }

/** Who stands behind the figures, by name. */
export type XlsxPeople = { people: readonly PersonRow[]; standings: readonly OnMeasure[] }

type Wanting = { measure: string; standing: string; reasons: string; person: PersonRow }

const who: readonly Column<PersonRow>[] = [
  { head: "Patient", width: 14, cell: (one) => text(one.patient_id) },
  { head: "Family name", width: 20, cell: (one) => text(one.family_name) },
  { head: "Given name", width: 20, cell: (one) => text(one.given_name) },
  { head: "Age", width: 7, cell: (one) => whole(one.age_years) },
  { head: "Site", width: 18, cell: (one) => text(one.site) },
  { head: "Clinician", width: 22, cell: (one) => text(one.clinician_name) },
  { head: "Next visit", width: 13, cell: (one) => day(one.next_visit_on) },
]

const values: readonly Column<PersonRow>[] = [
  { head: "Systolic, mmHg", width: 10, cell: (one) => whole(one.systolic) },
  { head: "Diastolic, mmHg", width: 10, cell: (one) => whole(one.diastolic) },
  { head: "Pressure from", width: 14, cell: (one) => text(one.bp_source) },
  { head: "Pressure on", width: 13, cell: (one) => day(one.bp_on) },
  { head: "eGFR, mL/min/1.73 m\u00b2", width: 12, cell: (one) => whole(one.egfr) },
  { head: "eGFR on", width: 13, cell: (one) => day(one.egfr_on) },
  { head: "Urine albumin, mg/g", width: 12, cell: albumin },
  { head: "Urine albumin on", width: 13, cell: (one) => day(one.acr_on) },
  { head: "Potassium, mmol/L", width: 11, cell: (one) => decimal(one.potassium) },
  { head: "Potassium on", width: 13, cell: (one) => day(one.potassium_on) },
  { head: "Sodium of the diet, mg", width: 11, cell: (one) => whole(one.sodium_mg) },
  { head: "Classes of pressure drugs", width: 40, cell: (one) => text(one.classes.join("; ")) },
]

const wanting: readonly Column<Wanting>[] = [
  { head: "Measure", width: 36, cell: (row) => text(row.measure) },
  { head: "Standing", width: 24, cell: (row) => text(row.standing) },
  { head: "Why", width: 36, cell: (row) => text(row.reasons) },
  ...who.map((column) => ({ ...column, cell: (row: Wanting) => column.cell(row.person) })),
]

/** Everyone in the panel with the values behind the figures; and, measure by measure, who wants attention or was not measured. */
export function peopleSheets(report: MonthReport, { people, standings }: XlsxPeople): XlsxSheet[] {
  const byId = new Map(people.map((one) => [one.patient_id, one]))
  const rows = reportedMeasures(report).flatMap(({ figure: { measure } }) => {
    const wanted: readonly Standing[] = [measureWords(measure).attention, "unknown"]
    return standings
      .filter((one) => one.measure_id === measure.id && wanted.includes(one.standing))
      .flatMap((one): Wanting[] => {
        const person = byId.get(one.patient_id)
        if (!person) return []
        const standing = sentenceCase(standingWords(measure, one.standing))
        return [{ measure: measure.name, standing, reasons: sentenceCase(one.reasons.join("; ")), person }]
      })
  })
  return [
    tableSheet(report, {
      name: "People",
      title: "Everyone in the panel",
      columns: [...who, ...values],
      rows: people,
    }),
    tableSheet(report, {
      ...{ name: "Attention", title: "Who wants attention or was not measured, by measure" },
      ...{ columns: wanting, rows },
    }),
  ]
}

/** A value below or above what the laboratory reads is said with its sign, and so is no number. */
function albumin({ acr, acr_comparator: sign }: PersonRow): XlsxCell {
  return acr === null || sign === null || sign === "" ? decimal(acr) : text(`${sign}${acr}`)
}
