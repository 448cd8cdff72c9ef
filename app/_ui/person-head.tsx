import Link from "next/link"
import table from "./table.module.css"

/** The head of a person's row in a list: the name, which opens the patient. */
export function PersonHead(props: {
  person: { public_id: string; family_name: string | null; given_name: string | null }
}) {
  const { public_id: publicId, family_name: family, given_name: given } = props.person
  return (
    <th scope="row" role="rowheader" className={table.name}>
      <Link href={`/patients/${publicId}`} prefetch={false}>
        {[family, given].filter((name) => name !== null).join(", ") || "Name not on record"}
      </Link>
    </th>
  )
}
