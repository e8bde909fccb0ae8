import { overwriteGetLocale } from '../paraglide/runtime.js';
import { isLanguage, type Language } from './languages.js';

type Texts = Readonly<Record<string, (inputs: never) => string>>;

const key = 'tackboard.language';

/** English is part of the app and the fallback of all; the others are loaded when somebody asks for them. */
const others: Readonly<Record<Exclude<Language, 'en'>, () => Promise<Texts>>> = {
  de: async () => import('../paraglide/messages/de.js'),
  es: async () => import('../paraglide/messages/es.js'),
  pl: async () => import('../paraglide/messages/pl.js'),
};

/** The language in which the screen speaks, and the one last chosen on this device. */
class ScreenLanguage {
  /** What is shown now; texts, numbers and days follow it together. */
  here = $state<Language>('en');
  texts = $state.raw<Texts>({});
  device = $state<Language>(kept());
  #wanted: Language = 'en';

  /** Changes over once the texts are here. Without them the screen stays as it is and can be read. */
  async speak(wanted: Language): Promise<void> {
    this.#wanted = wanted;
    const texts = wanted === 'en' ? {} : await others[wanted]().catch(() => null);
    if (texts === null || this.#wanted !== wanted) return;
    this.texts = texts;
    this.here = wanted;
    document.documentElement.lang = wanted;
  }

  /** Keeps the language for whoever comes to this device next. */
  choose(wanted: Language): void {
    this.device = wanted;
    try {
      localStorage.setItem(key, wanted);
    } catch {
      // Storage may be closed to us; the choice then holds until the page is closed.
    }
  }
}

function kept(): Language {
  try {
    const stored = localStorage.getItem(key);
    return isLanguage(stored) ? stored : 'en';
  } catch {
    return 'en';
  }
}

export const language = new ScreenLanguage();
overwriteGetLocale(() => language.here);
