import Link from "next/link"
import { AsidePart, ScreenTitle, Theme } from "../../_ui/screen"
import type { ImportEntry } from "../../../lib/store/imports"
import type { SourceRow, SourceVersion } from "../../../lib/store/source-rows"
import { instantInFull } from "./import-words"
import styles from "./imports.module.css"
import { PlainTable } from "./plain-table"
import { importHref, sourceRowHref } from "./search-params"

/** Which row of which file this is, and the ways from it. */
export function SourceAside(props: {
  entry: ImportEntry
  file: string
  line: number
  publicId: string | null
  timeZone: string
}) {
  const { entry } = props
  return (
    <>
      <ScreenTitle title={`Line ${props.line}`}>
        {entry.enteredBy === null
          ? `of ${props.file}, brought in by import ${entry.id} (${entry.source}).`
          : `of ${props.file}, entered by hand by ${entry.enteredBy}, ${instantInFull(entry.startedAt, props.timeZone)} (import ${entry.id}).`}
      </ScreenTitle>
      <AsidePart>
        {props.publicId ? (
          <p className={styles.way}>
            <Link href={`/patients/${props.publicId}`} prefetch={false}>
              The patient it speaks of
            </Link>
          </p>
        ) : null}
        <p className={styles.way}>
          <Link href={importHref(entry.id)} prefetch={false}>
            The whole import
          </Link>
        </p>
      </AsidePart>
    </>
  )
}

/** The row's values as they are kept: converted where the contract converts, beside the spelling of the extract. */
export function SourceCells(props: {
  row: SourceRow | null
  rejected: { original: string; column: string | null; message: string } | null
}) {
  const { row, rejected } = props
  if (rejected)
    return (
      <Theme title="Rejected">
        <p className={styles.sentence}>
          {rejected.column === null ? "" : `${rejected.column}: `}
          {rejected.message}
        </p>
        <p>
          <code className={styles.original}>{rejected.original}</code>
        </p>
      </Theme>
    )
  const cells = row?.cells ?? []
  const empty = cells.filter((cell) => cell.value === null).map((cell) => cell.column)
  return (
    <Theme title="As it is kept" note="times on the clinic's clock">
      <dl className={styles.cells}>
        {cells
          .filter((cell) => cell.value !== null)
          .map((cell) => (
            <div key={cell.column}>
              <dt>{cell.column}</dt>
              <dd>{cell.value}</dd>
            </div>
          ))}
      </dl>
      {empty.length === 0 ? null : <p className={styles.more}>Empty: {empty.join(", ")}.</p>}
    </Theme>
  )
}

/** Every version of the same fact, latest first; nothing that was once known is deleted. */
export function SourceVersions(props: {
  kind: string
  row: SourceRow
  own: { importId: number; line: number }
  timeZone: string
}) {
  const { kind, row, own, timeZone } = props
  return (
    <Theme title="Versions of this fact">
      <PlainTable
        caption="Versions of this fact"
        columns={[{ head: "Row" }, { head: "Known since" }, { head: "Stands", label: "" }]}
        rows={row.versions.map((version) => ({
          key: `${version.importId} ${version.line}`,
          cells: [
            isSame(version, own) ? (
              <strong>
                line {version.line}, import {version.importId}
              </strong>
            ) : (
              <Link href={sourceRowHref({ ...version, kind })} prefetch={false}>
                line {version.line}, import {version.importId}
              </Link>
            ),
            instantInFull(version.knownAt, timeZone),
            endWords(version, timeZone),
          ],
        }))}
      />
    </Theme>
  )
}

function isSame(version: SourceVersion, own: { importId: number; line: number }): boolean {
  return version.importId === own.importId && version.line === own.line
}

function endWords(version: SourceVersion, timeZone: string): string {
  if (version.endedAt === null) return "in force"
  const by = version.endedBy === null ? "" : ` by import ${version.endedBy}`
  return `${version.endReason ?? "ended"}${by} on ${instantInFull(version.endedAt, timeZone)}`
}
