import { Field } from "./case-form"

/** A few words beside an act; they name nobody. */
export function NoteField(props: {
  typed: Readonly<Record<string, string>>
  label?: string
  isNeeded?: true
}) {
  const { typed, label = "Note", isNeeded } = props
  return (
    <Field label={label} isWide>
      <input
        name="note"
        autoComplete="off"
        maxLength={1000}
        required={isNeeded}
        defaultValue={typed["note"]}
      />
    </Field>
  )
}
