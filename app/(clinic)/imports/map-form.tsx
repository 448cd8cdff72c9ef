"use client"

import { useActionState, useState } from "react"
import { Button } from "../../_ui/button"
import { mapDrugText } from "./actions"
import styles from "./drug-texts.module.css"

const mostIngredients = 4

/** Says which ingredients a drug text means, or that it counts for nothing. */
export function MapForm({ text, named }: { text: string; named: readonly string[] }) {
  const [answer, save, isSaving] = useActionState(mapDrugText, { problem: null })
  const [fields, setFields] = useState(Math.max(1, named.length))
  return (
    <form action={save} className={styles.map}>
      <input type="hidden" name="text" value={text} />
      {Array.from({ length: fields }, (_, place) => (
        <input
          key={place}
          name="ingredient"
          list="ingredients"
          aria-label={place === 0 ? `Ingredient of ${text}` : `Ingredient ${place + 1} of ${text}`}
          placeholder={place === 0 ? "ingredient" : "and"}
          defaultValue={named[place] ?? ""}
          autoComplete="off"
        />
      ))}
      {fields < mostIngredients ? (
        <button type="button" className={styles.add} onClick={() => setFields(fields + 1)}>
          + another
        </button>
      ) : null}
      <Button type="submit" disabled={isSaving}>
        Map
      </Button>
      <Button type="submit" name="meaning" value="ignored" disabled={isSaving} formNoValidate>
        Counts for nothing
      </Button>
      {answer.problem === null ? null : (
        <p role="alert" className={styles.problem}>
          {answer.problem}
        </p>
      )}
    </form>
  )
}
