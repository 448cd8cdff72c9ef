import Link from "next/link"
import type { ReactNode } from "react"
import { listName } from "../../lib/speech/person-name"
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
  return (
    <th scope="row" role="rowheader" className={table.name}>
      <Link href={hrefOf(`/patients/${props.person.public_id}`, { month: props.month })} prefetch={false}>
        {listName(props.person)}
      </Link>
      {props.children}
    </th>
  )
}
