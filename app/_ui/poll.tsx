"use client"

import { useRouter } from "next/navigation"
import { useEffect } from "react"

const everyMs = 1000

/** Asks for the screen again every second while something on it goes on. */
export function Poll({ isOn }: { isOn: boolean }) {
  const router = useRouter()
  useEffect(() => {
    if (!isOn) return
    const timer = setInterval(() => router.refresh(), everyMs)
    return () => clearInterval(timer)
  }, [isOn, router])
  return null
}
