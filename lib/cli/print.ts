/** Writes a result to stdout and waits until it is out; a reader that closed the pipe early is no error. */
export async function print(text: string): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    process.stdout.write(text.endsWith("\n") ? text : `${text}\n`, (error) => {
      if (error && !("code" in error && error.code === "EPIPE")) reject(error)
      else resolve()
    })
  })
}
