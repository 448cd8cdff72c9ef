"use client"

import { useRef } from "react"
import { DecisionForm } from "../decisions/decision-form"
import type { FormDecision } from "../decisions/decision-sent"
import { goToNextRow } from "../list-keys"
import styles from "./protection.module.css"

/** The form of a decision, folded in a row; once it is recorded the next row has the focus. */
export function DecideInRow({ of }: { of: FormDecision }) {
  const fold = useRef<HTMLDetailsElement>(null)
  const recorded = () => {
    if (fold.current === null) return
    fold.current.open = false
    goToNextRow(fold.current)
  }
  return (
    <details ref={fold} data-act="decide" className={styles.decide}>
      <summary>
        {of.shownId === null ? "Decide" : "Decide anew"}
        <span className="visually-hidden">: {of.about}</span>
      </summary>
      <DecisionForm of={of} onRecorded={recorded} />
    </details>
  )
}
