import { listed, sentenceCase } from "../../../../lib/speech/format"
import type { DrugCourse } from "../../../../lib/questions/patient-courses"
import type { PatientClassGuidance } from "../../../../lib/questions/patient-class-guidance"
import type { PatientStatementRows } from "../../../../lib/questions/patient-statement-rows"
import styles from "./class-guidance.module.css"
import outlook from "./kidney-outlook.module.css"
import { SourceLinks } from "./source-links"
import { statementSources } from "./statement-sources"

const order = ["prefers", "considers", "avoids", "never stopped abruptly"] as const

const words: Readonly<Record<PatientClassGuidance["guidance"], string>> = {
  prefers: "Preferred",
  considers: "To be considered",
  avoids: "Avoided, or with care",
  "never stopped abruptly": "Never stopped abruptly",
}

/** Which drug classes published guidance prefers or avoids for somebody's conditions, each statement with where it is from. */
export function ClassGuidance(props: {
  statements: readonly PatientClassGuidance[]
  courses: readonly DrugCourse[]
  behind: readonly PatientStatementRows[]
}) {
  const { statements, courses, behind } = props
  if (statements.length === 0) return null
  const sourcesOf = (one: PatientClassGuidance) => [
    ...new Set([...statementSources(behind, "guidance", one.rule), ...activeSources(one, courses)]),
  ]
  const groups = order
    .map((guidance) => ({ guidance, said: statements.filter((one) => one.guidance === guidance) }))
    .filter(({ said }) => said.length > 0)
  return (
    <section aria-labelledby="class-guidance" className={styles.guidance}>
      <h2 id="class-guidance" className={outlook.title}>
        What guidance says of drug classes
      </h2>
      <dl className={outlook.rows}>
        {groups.map(({ guidance, said }) => (
          <div key={guidance}>
            <dt>{words[guidance]}</dt>
            <dd>
              <ul className={styles.statements}>
                {said.map((one) => (
                  <Statement key={one.place} said={one} sources={sourcesOf(one)} />
                ))}
              </ul>
            </dd>
          </div>
        ))}
      </dl>
      <p className={outlook.defers}>
        Published statements for the conditions on record, not advice for this person. Clinicians decide;
        local policy applies.
      </p>
    </section>
  )
}

function Statement({ said, sources }: { said: PatientClassGuidance; sources: readonly string[] }) {
  const { statement, active, source, mark } = said
  return (
    <li>
      {statement}
      {active.length === 0 ? null : <strong> {sentenceCase(listed(active))} active.</strong>}{" "}
      <span className={styles.source}>
        {source} ({mark}).
      </span>{" "}
      <SourceLinks sources={sources} />
    </li>
  )
}

/** The orders of the drugs that a statement names as active. */
function activeSources(said: PatientClassGuidance, courses: readonly DrugCourse[]): string[] {
  const taken = courses.filter(
    (course) => course.is_active && course.drug.split(" + ").some((drug) => said.active.includes(drug)),
  )
  return [...new Set(taken.flatMap((course) => course.sources))]
}
