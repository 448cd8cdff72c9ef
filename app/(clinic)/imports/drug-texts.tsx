import { Button } from "../../_ui/button"
import { count, counted, listed } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import type { DrugText } from "../../../lib/questions/drug-texts"
import { unmapDrugText } from "./actions"
import type { ImportAnswers } from "./import-answers"
import shared from "./imports.module.css"
import styles from "./drug-texts.module.css"
import { MapForm } from "./map-form"
import { SuggestedForm } from "./suggested-form"
import { suggestedReadings } from "./suggested-readings"

/** Drug texts that were not read, or not fully: a person says once what each means, and it holds for every order. */
export function DrugTexts({ answers }: { answers: ImportAnswers }) {
  const { drugs, mappings } = answers
  if (drugs === null) return null
  const said = new Set(mappings.map((mapping) => mapping.text))
  const open = drugs.texts.filter((text) => !said.has(text.normalised))
  return (
    <Theme title="Drug texts not fully read" id="drugs" note={count(open.length)}>
      <p className={shared.lead}>
        Until a text is mapped, what it does not name counts for no drug class. A mapping is made once and
        holds for every order with that text, earlier and later.
      </p>
      {open.length === 0 ? <p className="soft">Every drug text was read.</p> : null}
      <datalist id="ingredients">
        {drugs.ingredients.map((ingredient) => (
          <option key={ingredient} value={ingredient} />
        ))}
      </datalist>
      <ul className={styles.texts}>
        {open.map((text) => (
          <li key={text.normalised}>
            <div>
              <h3>{text.texts[0]}</h3>
              <p className={shared.when}>
                {counted(text.patients, "patient", "patients")}, {counted(text.orders, "order", "orders")}.{" "}
                {statusSentence(text)}
                {text.texts.length > 1 ? ` Also written ${listed(text.texts.slice(1, 4))}.` : null}
              </p>
              {suggestedReadings(text, drugs.suggestions).map((reading) => (
                <SuggestedForm key={reading.names.join(" ")} text={text.normalised} reading={reading} />
              ))}
            </div>
            {text.status === "disagrees" ? null : <MapForm text={text.normalised} named={text.ingredients} />}
          </li>
        ))}
      </ul>
      {mappings.length === 0 ? null : (
        <details className={styles.mappings}>
          <summary>{counted(mappings.length, "text", "texts")} mapped by a person</summary>
          <ul>
            {mappings.map((mapping) => (
              <li key={mapping.text}>
                <span>
                  {mapping.text}: {mapping.isIgnored ? "counts for nothing" : listed(mapping.ingredients)}
                </span>
                <form action={unmapDrugText}>
                  <input type="hidden" name="text" value={mapping.text} />
                  <Button type="submit">Undo</Button>
                </form>
              </li>
            ))}
          </ul>
        </details>
      )}
    </Theme>
  )
}

function statusSentence(text: DrugText): string {
  if (text.status === "unmapped") return "Nothing in it was recognised."
  if (text.status === "disagrees")
    return `Code and text name different drugs; both count: ${listed(text.ingredients)}.`
  const read = text.ingredients.length === 0 ? "" : `Read as ${listed(text.ingredients)}; `
  return `${read}not recognised: ${listed(text.unknown_words)}.`
}
