"use client"

import { useActionState, type ReactNode } from "react"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import styles from "../row-form.module.css"
import { nothingSent, type CaseSent, type FormCase } from "./case-sent"

type Action = (before: CaseSent, form: FormData) => Promise<CaseSent>

/** A form about one case: it carries the version its page showed, keeps what was typed, and says what was refused. */
export function CaseForm(props: {
  of: FormCase
  action: Action
  verb: string
  kind?: "primary" | "quiet"
  children?: (typed: CaseSent["typed"]) => ReactNode
}) {
  const { of, action, verb, kind, children } = props
  const [sent, send, isSending] = useActionState(action, nothingSent)
  return (
    <form key={sent.saved} action={send} onSubmit={keptForm(send)} className={styles.form}>
      <input type="hidden" name="id" value={of.id} />
      <input type="hidden" name="version" value={Math.max(of.version, sent.version ?? 0)} />
      {children?.(sent.typed)}
      <Button type="submit" kind={kind} disabled={isSending} aria-label={`${verb}: ${of.name}`}>
        {verb}
      </Button>
      {sent.problem === null ? null : <p role="alert">{sent.problem}</p>}
    </form>
  )
}

/** A field with its label above. */
export function Field(props: { label: string; hint?: string; isWide?: true; children: ReactNode }) {
  return (
    <label className={props.isWide ? styles.wide : undefined}>
      <span>{props.label}</span>
      {props.children}
      {props.hint ? <small>{props.hint}</small> : null}
    </label>
  )
}
