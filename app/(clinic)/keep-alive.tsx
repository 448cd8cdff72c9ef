"use client"

import { useRouter } from "next/navigation"
import { useEffect, useRef } from "react"
import { Button } from "../_ui/button"

const signEveryMs = 60_000
const checkEveryMs = 5000
const warnBeforeMs = 2 * 60_000

/**
 * Tells the site, at most once a minute, that the person does something; what a screen asks by itself tells nothing. Two
 * minutes before the session would become idle it says so.
 */
export function KeepAlive({ idleMs }: { idleMs: number }) {
  const router = useRouter()
  const dialog = useRef<HTMLDialogElement>(null)
  const lastSign = useRef(0)
  useEffect(() => {
    lastSign.current = Date.now()
    const onDoing = () => {
      if (dialog.current?.open || Date.now() - lastSign.current < signEveryMs) return
      lastSign.current = Date.now()
      void sign()
    }
    const timer = setInterval(() => {
      const idle = Date.now() - lastSign.current
      // Asked for by itself it keeps nothing alive, and leads to the sign-in once the session is over.
      if (idle >= idleMs && idle % signEveryMs < checkEveryMs) router.refresh()
      if (idle >= idleMs - warnBeforeMs && !dialog.current?.open) dialog.current?.showModal()
    }, checkEveryMs)
    window.addEventListener("pointerdown", onDoing)
    window.addEventListener("keydown", onDoing)
    return () => {
      clearInterval(timer)
      window.removeEventListener("pointerdown", onDoing)
      window.removeEventListener("keydown", onDoing)
    }
  }, [idleMs, router])
  const stay = () => {
    lastSign.current = Date.now()
    dialog.current?.close()
    void sign()
  }
  return (
    <dialog ref={dialog} aria-labelledby="idle-title" onClose={stay}>
      <h2 id="idle-title">The session is about to end</h2>
      <p>Nothing was done here for a while; in two minutes the site signs out.</p>
      <Button kind="primary" onClick={stay}>
        Stay signed in
      </Button>
    </dialog>
  )
}

async function sign(): Promise<void> {
  await fetch("/api/session", { method: "POST" }).catch(() => undefined)
}
