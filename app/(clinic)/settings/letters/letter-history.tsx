import type { WrittenTemplate } from "../../../../lib/domain/letter-template"
import { languageName } from "../../../../lib/speech/format"
import { Theme } from "../../../_ui/screen"
import { instantInFull } from "../../imports/import-words"
import styles from "./letter-form.module.css"

/** Who wrote which letter when, latest first, each with its text. */
export function LetterHistory(props: { history: readonly WrittenTemplate[]; timeZone: string }) {
  const { history, timeZone } = props
  return (
    <Theme id="written" title="Written">
      {history.length === 0 ? <p className={styles.none}>No letter has been written yet.</p> : null}
      <ol className={styles.written}>
        {history.map((one) => {
          const name = languageName(one.language)
          return (
            <li key={`${one.language} ${one.version}`}>
              <p>
                {instantInFull(one.writtenAt, timeZone)}, {one.writtenBy}{" "}
                {one.body === "" ? `withdrew the letter in ${name}` : `wrote the letter in ${name}`}
              </p>
              {one.body === "" ? null : (
                <details>
                  <summary>
                    Text<span className="visually-hidden">{` of version ${one.version} in ${name}`}</span>
                  </summary>
                  {[one.letterhead, one.subject, one.body, one.closing, one.ownWords]
                    .filter((text) => text !== "")
                    .map((text, at) => (
                      <p key={at} lang={one.language} dir="auto" className={styles.text}>
                        {text}
                      </p>
                    ))}
                </details>
              )}
            </li>
          )
        })}
      </ol>
    </Theme>
  )
}
