"use client"

import { useActionState, useEffect, useId, useRef, useState, type ReactNode } from "react"
import {
  decisionKinds,
  decisionReasons,
  longestDays,
  longestNote,
  type DecisionTopic,
} from "../../../lib/domain/clinician-decisions"
import { daysAfter } from "../../../lib/domain/day-sums"
import { sentenceCase } from "../../../lib/speech/format"
import { decisionKindWords, recordedWords } from "../../../lib/speech/decision-words"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { decide } from "./decision-actions"
import { nothingSent, type DecisionSent, type FormDecision } from "./decision-sent"
import styles from "./decision-form.module.css"

/** Asks what was decided about one person and topic, and why; it carries the decision its page showed, and keeps what was typed. */
export function DecisionForm({ of, onRecorded }: { of: FormDecision; onRecorded?: () => void }) {
  const [sent, send, isSending] = useActionState(decide, nothingSent)
  const told = useRef(0)
  useEffect(() => {
    if (sent.saved === told.current) return
    told.current = sent.saved
    onRecorded?.()
  })
  const shownId = sent.shownId === undefined ? of.shownId : sent.shownId
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="publicId" value={of.publicId} />
      <input type="hidden" name="topic" value={of.topic} />
      <input type="hidden" name="shown" value={shownId ?? ""} />
      <Fields key={sent.saved} of={of} sent={sent} />
      <Button type="submit" disabled={isSending} aria-label={`Record decision: ${of.about}`}>
        Record
      </Button>
      {sent.problem !== null && sent.field === null ? <p role="alert">{sent.problem}</p> : null}
      {sent.problem === null && sent.saved > 0 ? <p role="status">{recordedWords(of)}</p> : null}
    </form>
  )
}

function Fields({ of, sent }: { of: FormDecision; sent: DecisionSent }) {
  const { typed } = sent
  const [why, setWhy] = useState(typed["why"] ?? "")
  const isDeferred = why.startsWith("deferred|")
  const isOther = why.endsWith("|other")
  return (
    <>
      <Field name="why" label="Decision" sent={sent}>
        {(told) => (
          <select
            {...told}
            name="why"
            required
            defaultValue={typed["why"] ?? ""}
            onChange={(event) => setWhy(event.currentTarget.value)}
          >
            <option value="">Choose</option>
            <Reasons topic={of.topic} />
          </select>
        )}
      </Field>
      <Field name="until" label={isDeferred ? "Until" : "Until, if it ends"} sent={sent}>
        {(told) => (
          <input
            {...told}
            type="date"
            name="until"
            required={isDeferred}
            min={daysAfter(of.today, 1)}
            max={daysAfter(of.today, longestDays)}
            defaultValue={typed["until"]}
          />
        )}
      </Field>
      <Field name="note" label={isOther ? "Note: what, without names" : "Note"} sent={sent}>
        {(told) => (
          <input
            {...told}
            name="note"
            autoComplete="off"
            required={isOther}
            maxLength={longestNote}
            defaultValue={typed["note"]}
          />
        )}
      </Field>
    </>
  )
}

/** Every kind with its reasons; the value names both. */
function Reasons({ topic }: { topic: DecisionTopic }) {
  return decisionKinds.map((kind) => (
    <optgroup key={kind} label={decisionKindWords(kind, topic)}>
      {decisionReasons[kind].map((reason) => (
        <option key={reason} value={`${kind}|${reason}`}>
          {reason === "other" ? `${decisionKindWords(kind, topic)}: other` : sentenceCase(reason)}
        </option>
      ))}
    </optgroup>
  ))
}

type Told = { "aria-invalid": boolean; "aria-describedby": string | undefined }

/** A field with its label above and its problem below. */
function Field(props: {
  name: "why" | "until" | "note"
  label: string
  sent: DecisionSent
  children: (told: Told) => ReactNode
}) {
  const { name, label, sent } = props
  const id = useId()
  const isWrong = sent.problem !== null && sent.field === name
  return (
    <div className={name === "note" ? styles.wide : undefined}>
      <label>
        <span>{label}</span>
        {props.children({ "aria-invalid": isWrong, "aria-describedby": isWrong ? id : undefined })}
      </label>
      {isWrong ? (
        <p role="alert" id={id}>
          {sent.problem}
        </p>
      ) : null}
    </div>
  )
}
