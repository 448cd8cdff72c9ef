import Link from "next/link"
import { sodiumHref } from "./search-params"

/** The way from a measure of sodium to the screen that tells for whom it falls, in the month that is chosen. */
export function SodiumLink({ month }: { month: string | null }) {
  return (
    <Link href={sodiumHref({ month })} prefetch={false}>
      Is it falling, and for whom
    </Link>
  )
}
