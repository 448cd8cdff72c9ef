import { Notice } from "../_ui/notice"

export default function ScreenForbidden() {
  return (
    <Notice title="This account does not open this screen.">
      <p>
        What an account opens follows from its roles. An administrator of the clinic gives and takes roles.
      </p>
    </Notice>
  )
}
