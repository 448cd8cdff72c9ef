"use client"

import Link from "next/link"
import { useParams } from "next/navigation"

/** Leads to emergency access, and from there back to whose page was asked for. */
export function EmergencyLink() {
  const { publicId } = useParams()
  const asked = typeof publicId === "string" ? `?patient=${encodeURIComponent(publicId)}` : ""
  return (
    <Link href={`/emergency${asked}`} prefetch={false}>
      emergency access
    </Link>
  )
}
