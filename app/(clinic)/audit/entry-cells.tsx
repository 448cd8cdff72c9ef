import Link from "next/link"
import { capabilities, permissions } from "../../../lib/access/permissions"
import type { AuditRow } from "../../../lib/store/audit-log"
import { counted } from "../../../lib/speech/format"
import type { AuditAnswers } from "./audit-answers"
import styles from "./audit.module.css"
import { actionWords, detailWords, rolesOfEntry, shortId } from "./entry-words"
import { auditHref } from "./search-params"

/** Who it was, in which roles. */
export function EntryPerson({ entry }: { entry: AuditRow }) {
  const roles = rolesOfEntry(entry)
  return (
    <>
      {entry.actorName}
      {roles === "" ? null : <span className="soft"> {roles}</span>}
    </>
  )
}

/** What was done, how it ended where it did not end well, and why where a reason was given. */
export function EntryDeed({ entry }: { entry: AuditRow }) {
  return (
    <>
      {actionWords(entry.action)}
      {entry.outcome === "done" ? null : <strong className={styles.outcome}>, {entry.outcome}</strong>}
      {entry.purpose === null ? null : <span className="soft"> Reason: {entry.purpose}</span>}
    </>
  )
}

/** Whom or what it was about. One person links to all entries about them. */
export function EntryMatter({ entry, answers }: { entry: AuditRow; answers: AuditAnswers }) {
  const detail = detailWords(entry.detail)
  return (
    <>
      <Matter entry={entry} answers={answers} />
      {detail === "" ? null : <span className="soft"> {detail}</span>}
    </>
  )
}

function Matter({ entry, answers }: { entry: AuditRow; answers: AuditAnswers }) {
  const { object, objectId, people, person } = entry
  const isOfPatient = object === "patient" && objectId !== null
  const patient = person ?? (isOfPatient ? objectId : null)
  if (patient !== null)
    return (
      <Link href={auditHref({ patient })} prefetch={false}>
        {answers.namesById.get(patient) ?? `patient ${shortId(patient)}`}
      </Link>
    )
  if (people > 0)
    return (
      <>
        {counted(people, "person", "people")}
        {object === null ? null : `, ${thing(object, objectId)}`}
      </>
    )
  if (object === null) return null
  if (object === "capability") return <>{capabilityWords(objectId)}</>
  const name = object === "user" && answers.actors.find((one) => one.actor === objectId)?.name
  return <>{name ? `account of ${name}` : thing(object, objectId)}</>
}

function capabilityWords(id: string | null): string {
  const capability = capabilities.find((one) => one === id)
  return capability ? permissions[capability].words : thing("capability", id)
}

function thing(object: string, objectId: string | null): string {
  if (objectId === null) return object
  const isLong = /^[0-9a-f-]{32,}$/.test(objectId)
  return `${object === "user" ? "account" : object} ${isLong ? shortId(objectId) : objectId}`
}
