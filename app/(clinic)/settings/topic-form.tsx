import Form from "next/form"
import { chosenOf } from "../../../lib/domain/setting-choices"
import { settingKeys, settingText } from "../../../lib/domain/setting-values"
import { Button } from "../../_ui/button"
import { NumberField } from "./number-field"
import { choiceParam, ownChoice } from "./search-params"
import styles from "./settings.module.css"
import type { TopicProps } from "./topic-entry"

/** The answers to one question. Sending them asks for nothing but to be shown what they would make of the history. */
export function TopicForm({ topic, settings, proposal, texts }: TopicProps) {
  const isTried = topic.keys.some((key) => texts[key] !== undefined)
  const isWrong = proposal.problems.some((problem) => topic.keys.includes(problem.key))
  const chosen = isWrong ? null : chosenOf(topic, isTried ? proposal.settings : settings)
  const others = settingKeys.filter((key) => texts[key] !== undefined && !topic.keys.includes(key))
  const name = choiceParam(topic.id)
  return (
    <Form action="/settings" noValidate className={styles.form}>
      {others.map((key) => (
        <input key={key} type="hidden" name={key} value={texts[key]} />
      ))}
      {topic.choices.length === 0 ? null : (
        <fieldset className={styles.choices}>
          <legend className="visually-hidden">{topic.question}</legend>
          {topic.choices.map((choice) => (
            <label key={choice.id} className={styles.choice}>
              <input type="radio" name={name} value={choice.id} defaultChecked={choice === chosen} />
              <span>
                {choice.name}
                <span className={styles.source}>{choice.source}</span>
              </span>
            </label>
          ))}
          {topic.fields.length === 0 ? null : (
            <label className={styles.choice}>
              <input type="radio" name={name} value={ownChoice} defaultChecked={chosen === null} />
              <span>{topic.fields.length === 1 ? "A number of its own" : "Numbers of its own"}</span>
            </label>
          )}
        </fieldset>
      )}
      {topic.fields.length === 0 ? null : (
        <div className={topic.choices.length === 0 ? styles.fields : `${styles.fields} ${styles.own}`}>
          {topic.fields.map((field) => (
            <NumberField
              key={field.key}
              field={field}
              text={texts[field.key] ?? settingText(settings[field.key])}
              problem={proposal.problems.find((one) => one.key === field.key)?.message ?? null}
            />
          ))}
        </div>
      )}
      {topic.note === null ? null : <p className={styles.note}>{topic.note}</p>}
      <Button type="submit">
        Show what it would make of the history<span className="visually-hidden">: {topic.name}</span>
      </Button>
    </Form>
  )
}
