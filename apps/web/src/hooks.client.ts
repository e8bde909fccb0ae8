import type { HandleClientError } from '@sveltejs/kit';

/** An address without a page is answered on the screen; only what should not happen is worth the browser's notice. */
export const handleError: HandleClientError = ({ error, status, message }) => {
  if (status !== 404) reportError(error);
  return { message };
};
