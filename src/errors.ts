/** A mistake by whoever uses a command or a file, told in one line that says what to do. Anything else is a fault of ours. */
export class UserError extends Error {
  override name = 'UserError';
}
