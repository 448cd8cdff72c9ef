import Link from "next/link"
import { Notice } from "./_ui/notice"

export default function NotFound() {
  return (
    <main>
      <Notice title="There is no such page.">
        <p>
          The address may be mistyped. <Link href="/">Filtrate</Link> opens with the whole clinic, this month.
        </p>
      </Notice>
    </main>
  )
}
