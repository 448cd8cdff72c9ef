"use client"

import Link from "next/link"
import { useActionState, useState } from "react"
import { day, numbered } from "../../../../lib/speech/format"
import { Button, ButtonLink, DownloadLink } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import type { LetterRow } from "./letter-row"
import { recordSent } from "./letters-actions"
import styles from "./letters.module.css"
import { nothingRecorded, type LettersSent } from "./letters-sent"
import { letterFileHref, sheetsHref } from "./search-params"

type FormProps = {
  rows: readonly LetterRow[]
  /** Where a file is taken from: here, or past a proof of identity at an address; null for who may take none. */
  files: "here" | { proveAt: string } | null
}

/** Who gets a letter, all chosen at first; their sheets and files, and that the letters were sent. */
export function LettersForm({ rows, files }: FormProps) {
  const [without, setWithout] = useState<ReadonlySet<number>>(new Set())
  const [sent, send, isSending] = useActionState(recordSent, nothingRecorded)
  const chosen = rows.filter((row) => !without.has(row.id)).map((row) => row.id)
  const choose = (id: number, isChosen: boolean) =>
    setWithout((before) => new Set(isChosen ? [...before].filter((one) => one !== id) : [...before, id]))
  return (
    <form action={send} onSubmit={keptForm(send)}>
      <Outcome sent={sent} />
      {rows.length === 0 ? null : <Acts chosen={chosen} files={files} isSending={isSending} />}
      {rows.length === 0 ? null : (
        <ol className={styles.rows} aria-label="Letters to write">
          {rows.map((row) => (
            <li key={row.id} className={styles.row}>
              <label className={styles.choice}>
                <input
                  type="checkbox"
                  name="letter"
                  value={`${row.id}.${row.version}`}
                  checked={!without.has(row.id)}
                  onChange={(event) => choose(row.id, event.currentTarget.checked)}
                />
                <span className="visually-hidden">Letter to {row.name}</span>
              </label>
              <Row row={row} />
            </li>
          ))}
        </ol>
      )}
    </form>
  )
}

/** What can be done with those who are chosen. */
function Acts(props: { chosen: readonly number[]; files: FormProps["files"]; isSending: boolean }) {
  const { chosen, files, isSending } = props
  if (chosen.length === 0) return <p className={styles.none}>Nobody is chosen.</p>
  return (
    <div className={styles.acts}>
      <ButtonLink href={sheetsHref(chosen)}>Open {numbered(chosen.length, "to print")}</ButtonLink>
      <Files files={files} chosen={chosen} />
      <Button type="submit" kind="primary" disabled={isSending}>
        Record {numbered(chosen.length, "as sent")}
      </Button>
      <p>Recorded once they are in the post.</p>
    </div>
  )
}

function Files({ files, chosen }: { files: FormProps["files"]; chosen: readonly number[] }) {
  if (files === null) return null
  if (files !== "here") return <ButtonLink href={files.proveAt}>Take them as a file</ButtonLink>
  return (
    <>
      <DownloadLink href={letterFileHref("csv", chosen)}>CSV</DownloadLink>
      <DownloadLink href={letterFileHref("xlsx", chosen)}>XLSX</DownloadLink>
    </>
  )
}

function Row({ row }: { row: LetterRow }) {
  return (
    <>
      <div>
        <h2 className={styles.name}>
          <Link href={`/outreach/people/${row.publicId}`} prefetch={false}>
            {row.name}
          </Link>
        </h2>
        <p className={styles.soft}>{row.number}</p>
      </div>
      <ul>
        {row.reasons.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <div className={styles.soft}>
        <p>{row.words}</p>
        {row.lacks === null ? null : <p className={styles.warm}>{row.lacks}</p>}
        <p>{row.tried}</p>
      </div>
    </>
  )
}

function Outcome({ sent }: { sent: LettersSent }) {
  return (
    <>
      {sent.sent === 0 ? null : (
        <p role="status" className={styles.outcome}>
          {numbered(sent.sent, sent.sent === 1 ? "letter is" : "letters are")} recorded as sent
          {sent.againOn === null ? "" : `; they are looked at again on ${day(sent.againOn)}`}.
        </p>
      )}
      {sent.problem === null ? null : (
        <p role="alert" className={styles.warm}>
          {sent.problem}
        </p>
      )}
      {sent.left.length === 0 ? null : (
        <div role="alert" className={styles.outcome}>
          <p className={styles.warm}>Nothing was recorded of:</p>
          <ul>
            {sent.left.map(({ id, name, why }) => (
              <li key={id}>
                <strong>{name}</strong>. {why}
              </li>
            ))}
          </ul>
        </div>
      )}
    </>
  )
}
