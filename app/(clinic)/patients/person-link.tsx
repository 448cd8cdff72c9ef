import Link from "next/link"
import { nameOf } from "./columns"
import type { Panel } from "./panel"
import { patientHref } from "./search-params"

/** A name that opens its person. In the table the arrow keys and Enter do the same, so it is no stop of its own there. */
export function PersonLink(props: {
  panel: Panel
  row: number
  month: string | null
  onOpen?: () => void
  isStop?: true
}) {
  const { panel, row } = props
  return (
    <Link
      href={patientHref(panel.text("public_id", row) ?? "", props.month)}
      prefetch={false}
      tabIndex={props.isStop ? undefined : -1}
      onClick={props.onOpen}
    >
      {nameOf(panel, row)}
    </Link>
  )
}
