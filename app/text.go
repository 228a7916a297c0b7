package app

import (
	"embed"
	"fmt"

	"fyne.io/fyne/v2/lang"
)

// text is a word of the interface in the user's language. The English text is
// the key; assets/translations/en.json lists them all.
func text(s string) string { return lang.L(s) }

// textf is a sentence with values in it.
func textf(format string, args ...any) string { return fmt.Sprintf(lang.L(format), args...) }

func loadTranslations(files embed.FS) error {
	if err := lang.AddTranslationsFS(files, "translations"); err != nil {
		return fmt.Errorf("loading translations: %w", err)
	}
	return nil
}
