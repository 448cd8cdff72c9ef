import type { Settings } from "../../../../lib/domain/settings"
import { day, monthShort } from "../../../../lib/speech/format"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"
import type { DietPoint } from "../../../../lib/questions/patient-diet"
import type { LabPoint } from "../../../../lib/questions/patient-labs"
import { completenessWords } from "../../diet-part-words"
import { DrugTrack } from "./drug-track"
import { LineFigures } from "./line-figures"
import type { PatientAnswers } from "./patient-answers"
import { PressureKey, PressureTrack } from "./pressure-track"
import styles from "./time-line.module.css"
import { percentAt, yearStarts, type TimeSpan } from "./time-scale"
import { ValueTrack, type ValuePoint } from "./value-track"
import { VisitTrack } from "./visit-track"
import { placed } from "../../../_ui/placed"

/** Three years of one person on one line: pressures, drugs, kidney results, potassium, sodium, visits. */
export function TimeLine(props: {
  person: PatientIdentity
  facts: PatientAnswers["line"]
  asOf: string
  settings: Settings
}) {
  const { person, facts, asOf, settings } = props
  const end = person.died_on !== null && person.died_on < asOf ? person.died_on : asOf
  const span = { after: person.window_after, to: asOf, openTo: end }
  const series = (name: LabPoint["series"], decimals: number) =>
    facts.labs.filter((point) => point.series === name).map((point) => labPoint(point, decimals))
  const shared = { span, isJoined: true } as const
  const pcr = series("pcr", 0)
  return (
    <div className={styles.line}>
      <PressureTrack settings={settings} marks={facts.pressures} span={span} />
      <div className={styles.below}>
        <PressureKey marks={facts.pressures} />
      </div>
      <DrugTrack
        courses={facts.courses.filter((course) => end > span.after && course.started_on <= end)}
        span={span}
      />
      <ValueTrack
        {...shared}
        name="eGFR"
        spoken="eGFR"
        unit="mL/min/1.73 m²"
        section="kidney"
        points={series("egfr", 0)}
        limits={[{ value: 60, words: "60" }]}
        least={30}
      />
      <ValueTrack
        {...shared}
        name="ACR"
        spoken="ACR"
        unit="mg/g"
        section="kidney"
        points={series("acr", 0)}
        limits={[
          { value: 30, words: "30" },
          { value: 300, words: "300" },
        ]}
        least={1.2}
        isLogarithmic
      />
      {pcr.length === 0 ? null : (
        <ValueTrack
          {...shared}
          name="PCR"
          spoken="PCR"
          unit="mg/g"
          section="kidney"
          points={pcr}
          limits={[{ value: 500, words: "500" }]}
          least={1.2}
          isLogarithmic
        />
      )}
      <ValueTrack
        {...shared}
        name="Potassium"
        spoken="potassium"
        unit="mmol/L"
        section="potassium"
        points={series("potassium", 1)}
        limits={[{ value: 5.5, words: "5.5", isWarm: true }]}
        least={1.5}
        height={48}
      />
      <ValueTrack
        span={span}
        isJoined={false}
        name="Sodium"
        spoken="diet record"
        unit="mg a day"
        section="sodium"
        points={facts.diet.map((record) => ({
          day: record.day,
          value: record.sodium_mg,
          words: `${record.comparator ?? ""}${Math.round(record.sodium_mg).toLocaleString("en-US")}`,
          look: dietLook(record),
          remark: completenessWords(record),
          sources: record.sources,
        }))}
        limits={[{ value: 2300, words: "2,300", isWarm: true }]}
        least={1500}
        isLabelled
      />
      <VisitTrack visits={facts.visits} span={span} />
      <Axis span={span} />
      <div className={styles.below}>
        <LineFigures facts={facts} />
      </div>
    </div>
  )
}

function Axis({ span }: { span: TimeSpan }) {
  return (
    <div className={styles.axis} aria-hidden="true">
      <span>{monthShort(span.after)}</span>
      {yearStarts(span)
        .filter((start) => percentAt(span, start.day) > 10 && percentAt(span, start.day) < 84)
        .map((start) => (
          <span
            key={start.year}
            className={styles.middle}
            {...placed({ left: `${percentAt(span, start.day)}%` })}
          >
            {start.year}
          </span>
        ))}
      <span className={styles.end}>{day(span.to)}</span>
    </div>
  )
}

function labPoint(point: LabPoint, decimals: number): ValuePoint {
  const number = point.number.toLocaleString("en-US", {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  })
  return {
    day: point.day,
    value: point.number,
    words: `${point.comparator ?? ""}${number}`,
    look: point.is_used ? "on line" : "unused",
    sources: point.sources,
  }
}

function dietLook({ series, completeness }: DietPoint): ValuePoint["look"] {
  if (completeness === "doubtful") return "hollow diamond"
  if (series === "24-hour urine") return "diamond"
  return series === "food frequency" ? "square" : "on line"
}
