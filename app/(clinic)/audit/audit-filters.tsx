import Link from "next/link"
import { auditActions, auditOutcomes } from "../../../lib/store/audit-actions"
import { Button } from "../../_ui/button"
import { sentenceCase } from "../../../lib/speech/format"
import type { AuditAnswers } from "./audit-answers"
import styles from "./audit.module.css"
import { shortId } from "./entry-words"
import { auditHref, isFiltered, type AuditView } from "./search-params"

/** What the log is narrowed by; a patient by their opaque id alone, which comes from an entry or their screen. */
export function AuditFilters({ answers, view }: { answers: AuditAnswers; view: AuditView }) {
  const { patient } = view
  return (
    <form action="/audit" className={styles.filters} role="search" aria-label="Entries">
      <label>
        From
        <input type="date" name="from" defaultValue={view.from ?? ""} />
      </label>
      <label>
        To
        <input type="date" name="to" defaultValue={view.to ?? ""} />
      </label>
      <Choice
        label="Who"
        name="actor"
        chosen={view.actor}
        any="anybody"
        options={answers.actors.map(({ actor, name }) => [
          actor,
          actor.startsWith("command:") ? `${name}, by command` : name,
        ])}
      />
      <Choice
        label="What"
        name="action"
        chosen={view.action}
        any="anything"
        options={Object.entries(auditActions)}
      />
      <Choice
        label="Outcome"
        name="outcome"
        chosen={view.outcome}
        any="any"
        options={auditOutcomes.map((outcome) => [outcome, outcome])}
      />
      <span className={styles.acts}>
        <Button type="submit">Show</Button>
        {isFiltered(view) ? (
          <Link href="/audit" prefetch={false}>
            All entries
          </Link>
        ) : null}
      </span>
      {patient === null ? null : (
        <p className={styles.patient}>
          <input type="hidden" name="patient" value={patient} />
          About {answers.namesById.get(patient) ?? `patient ${shortId(patient)}`} alone: who looked at this
          record, and who asked for it.{" "}
          <Link href={auditHref({ ...view, patient: null, before: null })} prefetch={false}>
            About everybody
          </Link>
        </p>
      )}
    </form>
  )
}

type ChoiceProps = {
  label: string
  name: string
  chosen: string | null
  any: string
  options: readonly (readonly [string, string])[]
}

function Choice({ label, name, chosen, any, options }: ChoiceProps) {
  return (
    <label>
      {label}
      <select name={name} defaultValue={chosen ?? ""}>
        <option value="">{sentenceCase(any)}</option>
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {sentenceCase(words)}
          </option>
        ))}
      </select>
    </label>
  )
}
