"use client"

import { useActionState, type ReactNode } from "react"
import { letterLimits, type LetterPart, type LetterTexts } from "../../../../lib/domain/letter-template"
import type { FilledLetter } from "../../../../lib/letters/fill-letter"
import type { LetterProblem } from "../../../../lib/letters/letter-problems"
import { Button } from "../../../_ui/button"
import { keptForm } from "../../../_ui/kept-form"
import { LetterText } from "../../letter-text"
import { writeLetter } from "./letter-actions"
import styles from "./letter-form.module.css"

const parts: readonly { part: LetterPart; label: string; hint: string; rows: number }[] = [
  {
    ...{ part: "letterhead", label: "Letterhead", rows: 4 },
    hint: "The clinic with its telephone number, and the day.",
  },
  { part: "subject", label: "Subject", hint: "Nothing that tells of an illness.", rows: 1 },
  {
    ...{ part: "body", label: "Body", rows: 16 },
    hint: "Plain words; how to reach the clinic; whom to call when unwell and in an emergency.",
  },
  { part: "closing", label: "Closing", hint: "The greeting at the end and who signs.", rows: 3 },
  {
    ...{ part: "ownWords", label: "Words of the reasons", rows: 6 },
    hint: "One a line, the id and a colon before the words. Left out, the program’s English words stand.",
  },
]

type FormProps = {
  language: string
  languageName: string
  version: number
  isInForce: boolean
  texts: LetterTexts
  preview: FilledLetter | null
  mayChange: boolean
  /** What stands between the form and the preview. */
  children: ReactNode
}

/** The letter of one language: written, looked at with an invented person, saved, or withdrawn. */
export function LetterForm(props: FormProps) {
  const { language, languageName, version, isInForce, texts, mayChange } = props
  const first = { problem: null, problems: [], preview: props.preview, typed: texts }
  const [sent, send, isSending] = useActionState(writeLetter, first)
  return (
    <>
      <form action={send} onSubmit={keptForm(send)} className={styles.form}>
        <input type="hidden" name="language" value={language} />
        <input type="hidden" name="version" value={version} />
        <fieldset disabled={!mayChange} className={styles.parts} lang={language}>
          <legend lang="en">{`Letter in ${languageName}`}</legend>
          {parts.map((one) => (
            <Part
              key={one.part}
              {...one}
              text={sent.typed[one.part]}
              problems={sent.problems.filter((problem) => problem.part === one.part)}
            />
          ))}
        </fieldset>
        {mayChange ? (
          <div className={styles.acts}>
            <Button type="submit" kind="primary" name="do" value="save" disabled={isSending}>
              Save
            </Button>
            <Button type="submit" name="do" value="preview" disabled={isSending}>
              Preview
            </Button>
            {isInForce ? (
              <Button type="submit" name="do" value="withdraw" formNoValidate disabled={isSending}>
                Withdraw
              </Button>
            ) : null}
            <Problems problem={sent.problem} number={sent.problems.length} />
          </div>
        ) : (
          <p className={styles.hint}>A clinic lead writes letters.</p>
        )}
      </form>
      {props.children}
      {sent.preview === null ? null : (
        <section className={styles.preview} aria-labelledby="preview-title">
          <h2 id="preview-title">As an invented person would get it</h2>
          <LetterText letter={sent.preview} label="Preview of the letter" />
          {sent.preview.inEnglish.length === 0 ? null : (
            <p className={styles.hint}>
              Words are lacking in {languageName} for: {sent.preview.inEnglish.join(", ")}. The program’s
              English stands there.
            </p>
          )}
        </section>
      )}
    </>
  )
}

function Problems({ problem, number }: { problem: string | null; number: number }) {
  if (problem === null && number === 0) return null
  const places = number === 1 ? "One place has to change" : `${number} places have to change`
  return <p role="alert">{problem ?? `${places} before this can be used.`}</p>
}

type PartProps = (typeof parts)[number] & { text: string; problems: readonly LetterProblem[] }

function Part({ part, label, hint, rows, text, problems }: PartProps) {
  const said = {
    ...{ name: part, defaultValue: text, maxLength: letterLimits[part], dir: "auto" },
    ...{ "aria-invalid": problems.length > 0, "aria-describedby": `${part}-hint` },
  } as const
  return (
    <div className={styles.part}>
      <label htmlFor={`letter-${part}`} lang="en">
        {label}
      </label>
      {rows === 1 ? (
        <input id={`letter-${part}`} {...said} required autoComplete="off" />
      ) : (
        <textarea id={`letter-${part}`} {...said} rows={rows} required={part === "body"} spellCheck />
      )}
      <div id={`${part}-hint`} lang="en">
        <p className={styles.hint}>{hint}</p>
        {problems.map(({ line, column, message }) => (
          <p key={`${line} ${column}`} className={styles.problem}>
            Line {line}, letter {column}: {message}
          </p>
        ))}
      </div>
    </div>
  )
}
