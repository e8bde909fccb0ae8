// Runs before the first paint, so that a dark screen never flashes white.
try {
  if (localStorage.getItem('tackboard.theme') === 'dark')
    document.documentElement.dataset.theme = 'dark';
} catch {
  // Storage may be closed to us; light is the default.
}
