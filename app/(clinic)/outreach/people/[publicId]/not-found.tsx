export { default } from "../../../patients/[publicId]/not-found"
