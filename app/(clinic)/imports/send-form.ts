import { z } from "zod"

export type SendAnswer = { isTaken: true; place: string } | { isTaken: false; message: string }

const Taken = z.object({ place: z.string().startsWith("/imports/") })
const Refused = z.object({ message: z.string() })

const broken = "The site was not reached, or the connection broke. Nothing was stored; send it again."

/** Posts a form and tells how much of it has been sent, which the newer way of fetching cannot. */
export function sendForm(
  address: string,
  form: FormData,
  onProgress: (sending: { sentBytes: number; totalBytes: number }) => void,
): Promise<SendAnswer> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest()
    request.open("POST", address)
    request.setRequestHeader("accept", "application/json")
    request.upload.onprogress = (event) => onProgress({ sentBytes: event.loaded, totalBytes: event.total })
    request.onerror = () => resolve({ isTaken: false, message: broken })
    request.onload = () => resolve(answerOf(request.responseText))
    request.send(form)
  })
}

function answerOf(text: string): SendAnswer {
  const body = parsed(text)
  const taken = Taken.safeParse(body)
  if (taken.success) return { isTaken: true, place: taken.data.place }
  const refused = Refused.safeParse(body)
  return { isTaken: false, message: refused.success ? refused.data.message : broken }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
