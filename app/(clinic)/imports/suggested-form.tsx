"use client"

import { useActionState } from "react"
import { Button } from "../../_ui/button"
import { listed } from "../../../lib/speech/format"
import { mapDrugText } from "./actions"
import styles from "./drug-texts.module.css"
import type { SuggestedReading } from "./suggested-readings"

/** Maps a misspelt drug text to what it was probably meant to say; nothing is mapped until a person does. */
export function SuggestedForm({ text, reading }: { text: string; reading: SuggestedReading }) {
  const [answer, save, isSaving] = useActionState(mapDrugText, { problem: null })
  return (
    <form action={save} className={styles.suggested}>
      <input type="hidden" name="text" value={text} />
      {reading.ingredients.map((ingredient) => (
        <input key={ingredient} type="hidden" name="ingredient" value={ingredient} />
      ))}
      <span>One letter away from {listed(reading.names)}.</span>
      <Button type="submit" disabled={isSaving}>
        Map to {listed(reading.ingredients)}
      </Button>
      {answer.problem === null ? null : (
        <p role="alert" className={styles.problem}>
          {answer.problem}
        </p>
      )}
    </form>
  )
}
