/** The names on record; null of somebody of whom nothing is. */
type Named = { given_name: string | null; family_name: string | null } | null

const unnamed = "Name not on record"

/** A person as a list in the order of names has them: "Ortiz, Ana". */
export function listName(person: Named): string {
  return [person?.family_name, person?.given_name].filter(Boolean).join(", ") || unnamed
}

/** A person as somebody is spoken of: "Ana Ortiz". */
export function fullName(person: Named): string {
  return [person?.given_name, person?.family_name].filter(Boolean).join(" ") || unnamed
}
