import { count, counted, day, lab, oneDecimal, percentTenth } from "../../../../lib/speech/format"
import type { EvidenceFact } from "../../../../lib/questions/evidence-fact"
import type { PatientIdentity } from "../../../../lib/questions/patient-identity"
import { factSources } from "./fact-sources"
import styles from "./kidney-outlook.module.css"
import { SourceLinks } from "./source-links"

/** Where the kidneys are heading: the risk of failure, the slope of eGFR, and how often the guideline asks for tests. */
export function KidneyOutlook(props: { person: PatientIdentity; facts: readonly EvidenceFact[] }) {
  const { person, facts } = props
  const rows = [riskRow(person), slopeRow(person), testsRow(person)].filter((row) => row !== null)
  if (rows.length === 0) return null
  return (
    <section aria-labelledby="kidney-outlook">
      <h2 id="kidney-outlook" className={styles.title}>
        Kidney outlook
      </h2>
      <dl className={styles.rows}>
        {rows.map((row) => (
          <div key={row.name}>
            <dt>{row.name}</dt>
            <dd>
              <strong>{row.value}</strong> <span className="soft">{row.rest}.</span>{" "}
              <SourceLinks sources={factSources(facts, row.topics)} />
            </dd>
          </div>
        ))}
      </dl>
    </section>
  )
}

type OutlookRow = { name: string; value: string; rest: string; topics: EvidenceFact["topic"][] }

function riskRow(person: PatientIdentity): OutlookRow | null {
  const { failure_risk_2_years: soon, failure_risk_5_years: later } = person
  if (soon === null || later === null) return null
  const acr =
    person.risk_acr === null || person.risk_acr_on === null
      ? ""
      : ` and ACR ${lab({ number: person.risk_acr, unit: "mg/g" })} of ${day(person.risk_acr_on)}`
  return {
    name: "Risk of kidney failure",
    value: `${percentTenth(soon)} in 2 years, ${percentTenth(later)} in 5`,
    rest: `by the four-variable equation, from eGFR ${person.egfr ?? ""}${acr}`,
    topics: ["failure risk", "risk acr"],
  }
}

function slopeRow(person: PatientIdentity): OutlookRow | null {
  const { slope, slope_standard_error: error, slope_points: points, slope_from: from, slope_to: to } = person
  if (slope === null || points === null || from === null || to === null) return null
  return {
    name: "Slope of eGFR",
    value: `${oneDecimal(slope)} a year`,
    rest: `${error === null ? "" : `standard error ${oneDecimal(error)}, `}${counted(points, "day", "days")} with a value, ${day(from)} to ${day(to)}`,
    topics: ["slope"],
  }
}

function testsRow(person: PatientIdentity): OutlookRow | null {
  if (person.risk_cell === null || person.tests_due === null) return null
  return {
    name: "Tests asked for",
    value: `${count(person.tests_due)} a year`,
    rest: `at ${person.risk_cell} risk; eGFR on ${counted(person.egfr_days_in_year ?? 0, "day", "days")} of the last 12 months`,
    topics: ["egfr tests", "tests due"],
  }
}
