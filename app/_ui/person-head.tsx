import Link from "next/link"
import type { ReactNode } from "react"
import { hrefOf } from "./href"
import table from "./table.module.css"

/** The head of a person's row in a list: the name, which opens the patient in the month of the list. */
export function PersonHead(props: {
  person: { public_id: string; family_name: string | null; given_name: string | null }
  /** The month as it stands in an address: null for the running one. */
  month: string | null
  /** What else is said of the person, under the name. */
  children?: ReactNode
}) {
  const { public_id: publicId, family_name: family, given_name: given } = props.person
  return (
    <th scope="row" role="rowheader" className={table.name}>
      <Link href={hrefOf(`/patients/${publicId}`, { month: props.month })} prefetch={false}>
        {[family, given].filter((name) => name !== null).join(", ") || "Name not on record"}
      </Link>
      {props.children}
    </th>
  )
}
