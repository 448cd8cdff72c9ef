import type { EntrySent } from "./entry-sent"

/** The id of the words beside a field, for the field to point at. */
export function wordsId(form: string, name: string): string {
  return `${form}-${name.replaceAll(".", "-")}-wrong`
}

/** What a field says of itself: its name, what was typed, and whether it is wrong. */
export function fieldProps(form: string, name: string, sent: EntrySent) {
  const isWrong = sent.wrong[name] !== undefined
  return {
    name,
    "aria-invalid": isWrong,
    "aria-describedby": isWrong ? wordsId(form, name) : undefined,
    autoComplete: "off",
  }
}

/** What is wrong with a field, under it; nothing while nothing is. */
export function Wrong(props: { form: string; name: string; sent: EntrySent }) {
  const { form, name, sent } = props
  const words = sent.wrong[name]
  return words === undefined ? null : <p id={wordsId(form, name)}>{words}</p>
}

/** What came of sending the form. */
export function Outcome({ sent, noun }: { sent: EntrySent; noun: readonly [string, string] }) {
  if (sent.problem !== null) return <p role="alert">{sent.problem}</p>
  if (sent.saved === 0) return null
  return (
    <p role="status">
      Saved: {sent.rows} {sent.rows === 1 ? noun[0] : noun[1]}. The figures and the line of time follow once
      they are computed.
    </p>
  )
}
