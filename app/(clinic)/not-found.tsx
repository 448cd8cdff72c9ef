import Link from "next/link"
import { Notice } from "../_ui/notice"

export default function ScreenNotFound() {
  return (
    <Notice title="There is no such page.">
      <p>
        The address may be from before an import, or mistyped. <Link href="/">Month</Link> shows the whole
        clinic, <Link href="/patients">Patients</Link> everyone in it.
      </p>
    </Notice>
  )
}
