import type { Theme } from "../../../lib/measures/types"
import { classWords } from "../../_ui/class-words"
import { day, oneDecimal, percentTenth } from "../../../lib/speech/format"
import { PressureMark } from "../../_ui/pressure-mark"
import { ClassCount } from "./class-count"
import {
  absentOr,
  dated,
  labText,
  measured,
  number,
  plainLab,
  told,
  wholeText,
  word,
  type PanelColumn,
} from "./column-kinds"
import styles from "./columns.module.css"
import { aWords, cautionNames, gWords } from "./facets"
import { alphabetKeys, labKeys, listedKeys, nested } from "./order"
import type { Panel } from "./panel"

export type MeasureColumn = {
  readonly id: string
  readonly column: string
  readonly name: string
  readonly theme: Theme
  /** How the measure says each standing. */
  readonly words: Readonly<Record<string, string>>
}

/** The name stands first, always; the others may be hidden and moved. */
export const nameColumn = "name"

/** Every column there is: those of the panel and one for the standing of each measure. */
export function panelColumns(measures: readonly MeasureColumn[]): PanelColumn[] {
  return [...fixed, ...measures.map(standing)]
}

export function nameOf(panel: Panel, row: number): string {
  const names = [panel.text("family_name", row), panel.text("given_name", row)].filter(Boolean)
  return names.length === 0 ? "Name not given" : names.join(", ")
}

const fixed: readonly PanelColumn[] = [
  {
    ...told("name", "Name", 176, { isShownFirst: true }),
    keys: (panel) =>
      nested(alphabetKeys(panel.texts("family_name")), alphabetKeys(panel.texts("given_name"))),
    cell: nameOf,
    text: nameOf,
  },
  {
    ...word("number", "Number", "patient_id", 110),
    keys: (panel) => alphabetKeys(panel.texts("patient_id")),
  },
  { ...number("age", "Age", "age_years", 44), isShownFirst: true },
  word("sex", "Sex at birth", "sex", 100),
  {
    ...told("pressure", "Pressure", 94, { unit: "mmHg", isNumber: true, isShownFirst: true, first: "down" }),
    keys: (panel) => nested(panel.numbers("systolic"), panel.numbers("diastolic")),
    cell: (panel, row) => absentOr(pressureText(panel, row), "not measured"),
    text: pressureText,
  },
  {
    ...told("from", "from", 78, { isShownFirst: true, label: "" }),
    keys: (panel) => listedKeys(panel.texts("bp_source"), ["office", "home", "ambulatory"]),
    cell: (panel, row) => {
      const source = panel.text("bp_source", row)
      return source === "office" || source === "home" || source === "ambulatory" ? (
        <PressureMark source={source} />
      ) : null
    },
    text: (panel, row) => panel.text("bp_source", row) ?? "",
  },
  dated("pressure-on", "Pressure on", "bp_on"),
  {
    ...word("target", "Target", "pressure", 110),
    label: "",
    keys: (panel) => listedKeys(panel.texts("pressure"), ["at target", "above target"]),
    cell: (panel, row) => {
      const where = panel.text("pressure", row)
      return <span className={where === "above target" ? styles.wanting : undefined}>{where}</span>
    },
  },
  {
    ...word("category", "Category", "category", 92),
    keys: (panel) =>
      listedKeys(panel.texts("category"), ["normal", "elevated", "stage 1", "stage 2", "severe"]),
  },
  { ...number("egfr", "eGFR", "egfr", 102, "mL/min/1.73 m²"), isShownFirst: true },
  dated("egfr-on", "eGFR on", "egfr_on"),
  {
    ...told("acr", "ACR", 58, { unit: "mg/g", isNumber: true, isShownFirst: true, first: "down" }),
    keys: (panel) => labKeys(panel.numbers("acr"), panel.texts("acr_comparator")),
    cell: (panel, row) => absentOr(labText(panel, row, "acr", "acr_comparator", 0), "none"),
    text: (panel, row) => plainLab(panel, row, "acr", "acr_comparator"),
  },
  dated("acr-on", "ACR on", "acr_on"),
  {
    ...told("stage", "Stage", 70, { isShownFirst: true }),
    keys: (panel) => nested(listedKeys(panel.texts("g"), gWords), listedKeys(panel.texts("a"), aWords)),
    cell: (panel, row) => absentOr(stageText(panel, row), "unknown"),
    text: stageText,
  },
  {
    ...word("risk", "KDIGO risk", "risk_cell", 150),
    keys: (panel) =>
      listedKeys(panel.texts("risk_cell"), ["low", "moderately increased", "high", "very high"]),
  },
  {
    ...word("albuminuria", "Albuminuria", "albuminuria", 110),
    keys: (panel) => listedKeys(panel.texts("albuminuria"), ["none", "raised once", "confirmed"]),
  },
  measured("failure-risk-2-years", "Risk of failure", "failure_risk_2_years", {
    width: 92,
    unit: "in 2 years",
    write: percentTenth,
  }),
  measured("slope", "eGFR slope", "slope", { width: 84, unit: "a year", write: oneDecimal }),
  {
    ...told("classes", "Classes", 80, { isShownFirst: true, first: "down" }),
    keys: (panel) => panel.numbers("class_count"),
    cell: (panel, row) => <ClassCount count={panel.number("class_count", row) ?? 0} />,
    text: (panel, row) => String(panel.number("class_count", row) ?? 0),
  },
  {
    ...told("class-names", "Classes by name", 290),
    keys: (panel) => panel.numbers("class_count"),
    cell: (panel, row) => absentOr(classNames(panel, row), "none"),
    text: classNames,
  },
  {
    ...told("ras", "ACE inhibitor or ARB", 152, { isShownFirst: true }),
    keys: (panel) => listedKeys(panel.texts("ras_history"), ["on", "stopped", "never"]),
    cell: (panel, row) => {
      const history = panel.text("ras_history", row)
      const stoppedOn = panel.text("ras_stopped_on", row)
      const isWanting = history !== "on" && panel.text("albuminuria", row) === "confirmed"
      return (
        <>
          <span className={isWanting ? styles.wanting : undefined}>{history}</span>
          {stoppedOn === null ? null : <span className={styles.soft}> {day(stoppedOn)}</span>}
        </>
      )
    },
    text: (panel, row) =>
      [panel.text("ras_history", row), panel.text("ras_stopped_on", row)].filter(Boolean).join(" "),
  },
  {
    ...told("potassium", "Potassium", 84, { unit: "mmol/L", isNumber: true, first: "down" }),
    keys: (panel) => labKeys(panel.numbers("potassium"), panel.texts("potassium_comparator")),
    cell: (panel, row) => absentOr(labText(panel, row, "potassium", "potassium_comparator", 1), "none"),
    text: (panel, row) => plainLab(panel, row, "potassium", "potassium_comparator"),
  },
  dated("potassium-on", "Potassium on", "potassium_on"),
  {
    ...number("sodium", "Sodium", "sodium_mg", 78, "mg a day"),
    isShownFirst: true,
    cell: (panel, row) => absentOr(wholeText(panel, row, "sodium_mg"), "no record"),
  },
  dated("sodium-on", "Sodium on", "sodium_on"),
  { ...dated("next-visit", "Next visit", "next_visit_on"), isShownFirst: true },
  {
    ...told("cautions", "Cautions", 300, { first: "down" }),
    keys: (panel) => {
      const held = panel.texts("cautions")
      const counts = held.words.map((list) => list.split(";").filter(Boolean).length || NaN)
      return Float64Array.from(held.codes, (code) => counts[code] ?? NaN)
    },
    cell: (panel, row) => {
      const names = namesOfCautions(panel, row)
      return names === "" ? absentOr("", "none") : <span className={styles.wanting}>{names}</span>
    },
    text: namesOfCautions,
  },
  word("clinician", "Clinician", "clinician_name", 150),
  word("site", "Site", "site", 110),
]

function standing(measure: MeasureColumn): PanelColumn {
  const read = (panel: Panel, row: number) => {
    const column = panel.standings(measure.column)
    const word = column.words[column.codes[row] ?? 0] ?? ""
    return measure.words[word] ?? word
  }
  return {
    ...told(measure.id, measure.name, 150),
    keys: (panel) =>
      listedKeys(panel.standings(measure.column), [
        ...["not met", "exception", "unknown", "excluded", "met", "outside"],
      ]),
    cell: (panel, row) => <span className={styles.soft}>{read(panel, row)}</span>,
    text: read,
  }
}

function namesOfCautions(panel: Panel, row: number): string {
  const held = (panel.text("cautions", row) ?? "").split(";").filter(Boolean)
  return held.map((id) => cautionNames[id] ?? id).join("; ")
}

function pressureText(panel: Panel, row: number): string {
  const systolic = panel.number("systolic", row)
  return systolic === null ? "" : `${systolic}/${panel.number("diastolic", row)}`
}

function stageText(panel: Panel, row: number): string {
  return [panel.text("g", row), panel.text("a", row)].filter(Boolean).join(" ")
}

function classNames(panel: Panel, row: number): string {
  return (panel.text("classes", row) ?? "").split(";").filter(Boolean).map(classWords).join(", ")
}
