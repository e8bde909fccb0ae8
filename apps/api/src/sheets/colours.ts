/** Slate on white: a sheet is copied and faxed, so nothing hangs on a hue. */
export const ink = '#1b242d';
export const soft = '#55606b';
export const line = '#9aa4ae';
export const band = '#dfe4e9';
export const metal = '#5b6976';
