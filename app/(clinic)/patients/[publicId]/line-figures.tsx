import type { ReactNode } from "react"
import { classWords } from "../../../_ui/class-words"
import { day, sentenceCase } from "../../../../lib/speech/format"
import { completenessWords } from "../../diet-part-words"
import { doseWords, endWords } from "./drug-words"
import styles from "./line-figures.module.css"
import type { PatientAnswers } from "./patient-answers"
import { markWords } from "./pressure-track"
import { SourceLinks } from "./source-links"
import { visitWords } from "./visit-track"

/** The same figures as tables, latest first, each with the rows of the imports it came from. */
export function LineFigures({ facts }: { facts: PatientAnswers["line"] }) {
  const labs = (names: readonly string[]) => facts.labs.filter((point) => names.includes(point.series))
  return (
    <details className={styles.figures}>
      <summary>Figures and their source rows</summary>
      <FigureTable
        id="pressure"
        title="Pressures"
        rows={facts.pressures.map((mark) => ({
          on: mark.day,
          words: markWords(mark),
          sources: mark.sources,
        }))}
      />
      <FigureTable
        id="drugs"
        title="Drugs"
        rows={facts.courses.map((course) => ({
          on: course.started_on,
          words: [
            sentenceCase(course.drug),
            course.class === null ? "no class" : classWords(course.class),
            ...course.step_days.map((step, place) => `${doseWords(course, place)} from ${day(step)}`),
            endWords(course) ?? "active",
          ].join(", "),
          sources: course.sources,
        }))}
      />
      <FigureTable
        id="kidney"
        title="Kidney and urine"
        rows={labs(["egfr", "unused eGFR", "acr", "pcr"]).map((point) => ({
          on: point.day,
          words: [
            ...(point.series === "egfr" ? [`eGFR ${point.number}`] : []),
            ...(point.series === "acr" ? [`ACR ${shown(point.comparator, point.number)} mg/g`] : []),
            ...(point.series === "pcr" ? [`PCR ${shown(point.comparator, point.number)} mg/g`] : []),
            ...(point.series === "unused eGFR" ? [] : ["reported as"]),
          ]
            .join(", ")
            .concat(` ${point.reported}`)
            .concat(point.remark ? `, ${point.remark}` : ""),
          sources: point.sources,
        }))}
      />
      <FigureTable
        id="potassium"
        title="Potassium"
        rows={labs(["potassium"]).map((point) => ({
          on: point.day,
          words: `${shown(point.comparator, point.number)} mmol/L, reported as ${point.reported}${point.remark ? `, ${point.remark}` : ""}`,
          sources: point.sources,
        }))}
      />
      <FigureTable
        id="sodium"
        title="Sodium"
        rows={facts.diet.map((record) => ({
          on: record.day,
          words: `${shown(record.comparator, Math.round(record.sodium_mg))} mg, ${[record.series, completenessWords(record)].filter((part) => part !== null).join(", ")}`,
          sources: record.sources,
        }))}
      />
      <FigureTable
        id="visits"
        title="Visits"
        rows={facts.visits.map((visit) => ({
          on: visit.started_on,
          words: visitWords(visit),
          sources: visit.sources,
        }))}
      />
    </details>
  )
}

type FigureRow = { on: string; words: ReactNode; sources: readonly string[] }

function FigureTable(props: { id: string; title: string; rows: FigureRow[] }) {
  return (
    <section id={`figures-${props.id}`} className={styles.section}>
      <h3>{props.title}</h3>
      {props.rows.length === 0 ? <p className="soft">none in these 36 months</p> : null}
      <ul>
        {props.rows
          .toSorted((one, other) => (one.on < other.on ? 1 : one.on > other.on ? -1 : 0))
          .map((row, place) => (
            <li key={place}>
              <span className={styles.on}>{day(row.on)}</span>
              <div>
                {row.words} <SourceLinks sources={row.sources} />
              </div>
            </li>
          ))}
      </ul>
    </section>
  )
}

function shown(comparator: string | null, number: number): string {
  return `${comparator ?? ""}${number.toLocaleString("en-US", { maximumFractionDigits: 1 })}`
}
