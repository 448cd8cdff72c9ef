import Link from "next/link"
import { counted, day, lab, milligrams, sentenceCase } from "../../../../lib/speech/format"
import type { EvidenceFact } from "../../../../lib/questions/evidence-fact"
import type { DietPoint } from "../../../../lib/questions/patient-diet"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"
import type { PatientPotassiumAdvice } from "../../../../lib/questions/patient-potassium-advice"
import type { PatientSodium } from "../../../../lib/questions/patient-sodium"
import type { PatientStatementRows } from "../../../../lib/questions/patient-statement-rows"
import { completenessWords, effectSource, fallWords, urineSource } from "../../diet-part-words"
import diet from "./diet-part.module.css"
import { factSources } from "./fact-sources"
import styles from "./kidney-outlook.module.css"
import { SourceLinks } from "./source-links"
import { statementSources } from "./statement-sources"

/** Sodium against the limit and what less of it did in trials, the latest 24-hour urine, and what is said of potassium. */
export function DietPart(props: {
  person: PatientIdentity
  sodium: PatientSodium | null
  potassium: readonly PatientPotassiumAdvice[]
  records: readonly DietPoint[]
  facts: readonly EvidenceFact[]
  behind: readonly PatientStatementRows[]
}) {
  const { person, sodium, potassium, records, facts, behind } = props
  const eaten = factSources(facts, ["diet mean"])
  if (sodium === null) return null
  const urine = records.findLast((record) => record.completeness !== null)
  return (
    <section aria-labelledby="diet-part">
      <h2 id="diet-part" className={styles.title}>
        Diet
      </h2>
      <dl className={styles.rows}>
        <SodiumRow sodium={sodium} sources={eaten} />
        <EffectRow sodium={sodium} sources={eaten} />
        {urine === undefined ? null : <UrineRow urine={urine} />}
        <PotassiumRow
          person={person}
          advice={potassium}
          behind={behind}
          sources={factSources(facts, ["potassium"])}
        />
      </dl>
      <Sources sodium={sodium} urine={urine} advice={potassium} />
      <p className={`${styles.defers} ${diet.published}`}>
        <Link href="/sodium/products">Supplements and herbal products of concern</Link>. Clinicians decide;
        local policy applies.
      </p>
    </section>
  )
}

function SodiumRow({ sodium, sources }: { sodium: PatientSodium; sources: readonly string[] }) {
  const { sodium_mg: mg, sodium_records: records, sodium_series: series, sodium_on: on } = sodium
  return (
    <div>
      <dt>Sodium</dt>
      {mg === null || on === null ? (
        <dd className="soft">No record of the last 12 months.</dd>
      ) : (
        <dd>
          <strong>{milligrams(mg)} a day</strong>{" "}
          <span className="soft">
            from {counted(records ?? 1, "record", "records")} ({series}), latest {day(on)};{" "}
            {sodium.above_mg === null ? "within" : `${milligrams(sodium.above_mg)} above`} the limit of{" "}
            {milligrams(sodium.limit_mg)}.
          </span>{" "}
          <SourceLinks sources={sources} />
        </dd>
      )}
    </div>
  )
}

function EffectRow({ sodium, sources }: { sodium: PatientSodium; sources: readonly string[] }) {
  const { fall_least: least, fall_most: most, above_mg: above } = sodium
  if (least === null || most === null || above === null) return null
  return (
    <div className={diet.published}>
      <dt>At the limit, in trials</dt>
      <dd>
        <strong>{fallWords({ least, most })} less systolic</strong>{" "}
        <span className="soft">
          with {milligrams(above)} of sodium less a day: a population average, for conversation; it says
          nothing of one person.
        </span>{" "}
        <SourceLinks sources={sources} />
      </dd>
    </div>
  )
}

function UrineRow({ urine }: { urine: DietPoint }) {
  return (
    <div>
      <dt>Latest 24-hour urine</dt>
      <dd>
        {day(urine.day)}: {completenessWords(urine)}.{" "}
        <span className="soft">It counts in the means as any other.</span>{" "}
        <SourceLinks sources={urine.sources} />
      </dd>
    </div>
  )
}

function PotassiumRow(props: {
  person: PatientIdentity
  advice: readonly PatientPotassiumAdvice[]
  behind: readonly PatientStatementRows[]
  sources: readonly string[]
}) {
  const { potassium, potassium_comparator: comparator, potassium_on: on } = props.person
  return (
    <div>
      <dt>Potassium</dt>
      <dd>
        {potassium === null || on === null ? null : (
          <>
            <strong>{lab({ number: potassium, comparator, unit: "mmol/L", decimals: 1 })}</strong>{" "}
            <span className="soft">on {day(on)}.</span> <SourceLinks sources={props.sources} />
          </>
        )}
        <ul className={`${diet.advice} ${diet.published}`}>
          {props.advice.map((one) => (
            <li key={one.advice}>
              {one.words}
              {one.because === null ? null : <span className="soft"> {sentenceCase(one.because)}.</span>}{" "}
              <SourceLinks sources={statementSources(props.behind, "potassium", one.advice)} />
            </li>
          ))}
        </ul>
      </dd>
    </div>
  )
}

function Sources(props: {
  sodium: PatientSodium
  urine: DietPoint | undefined
  advice: readonly PatientPotassiumAdvice[]
}) {
  return (
    <details className={diet.sources}>
      <summary>Where this is from</summary>
      <ul>
        {props.sodium.fall_least === null ? null : (
          <>
            <li>{effectSource}</li>
            <li>
              Before less sodium is advised: dizziness on standing, diuretics, kidney disease that loses salt,
              lithium, illness and poor appetite are thought of (from memory).
            </li>
          </>
        )}
        {props.urine === undefined ? null : <li>{urineSource}</li>}
        {[...new Set(props.advice.map((one) => one.source))].map((source) => (
          <li key={source}>Potassium: {source}.</li>
        ))}
      </ul>
    </details>
  )
}
