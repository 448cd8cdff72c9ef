import { startTransition, type SubmitEvent } from "react"

/**
 * Sends a form without emptying it, so that what was typed is still there when the answer names a problem: a form that
 * goes straight to its action is emptied whatever came of it.
 */
export function keptForm(send: (form: FormData) => void): (event: SubmitEvent<HTMLFormElement>) => void {
  return (event) => {
    event.preventDefault()
    const form = new FormData(event.currentTarget, event.nativeEvent.submitter)
    startTransition(() => send(form))
  }
}
