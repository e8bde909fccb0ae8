const key = 'tackboard.theme';

/** Light by default, because glare at the cell eats contrast; dark on request, remembered on this device. */
class Theme {
  dark = $state(document.documentElement.dataset.theme === 'dark');

  toggle(): void {
    this.dark = !this.dark;
    if (this.dark) document.documentElement.dataset.theme = 'dark';
    else delete document.documentElement.dataset.theme;
    try {
      localStorage.setItem(key, this.dark ? 'dark' : 'light');
    } catch {
      // Storage may be closed to us; the choice then holds until the page is closed.
    }
  }
}

export const theme = new Theme();
