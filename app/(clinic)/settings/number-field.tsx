import type { SettingField } from "../../../lib/domain/setting-topic"
import { settingWords } from "../../../lib/domain/setting-values"
import styles from "./settings.module.css"

/** A number with its unit and range; what is wrong with it stands beneath. */
export function NumberField(props: { field: SettingField; text: string; problem: string | null }) {
  const { field, text, problem } = props
  const range = `${field.least.toLocaleString("en-US")} to ${field.most.toLocaleString("en-US")}`
  const asWords = field.unit.startsWith("share") ? `; 0.05 is ${settingWords(field.key, 0.05)}` : ""
  const hint = `${range}${field.isOptional ? ", or empty" : ""}${asWords}`
  return (
    <div className={styles.field}>
      <label>
        <span>{field.name}</span>
        <input
          name={field.key}
          inputMode="decimal"
          autoComplete="off"
          defaultValue={text}
          aria-invalid={problem !== null}
          aria-describedby={`${field.key}-hint`}
        />
      </label>
      <span id={`${field.key}-hint`} className={styles.hint}>
        {field.unit} ({hint}){problem === null ? null : <strong className={styles.problem}>{problem}</strong>}
      </span>
    </div>
  )
}
