package app

import (
	"embed"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
	"underfall/app/words"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// book is the language of the running program.
func book() words.Book {
	if t, ok := fyne.CurrentApp().Settings().Theme().(*appTheme); ok {
		return *t.book.Load()
	}
	return words.Book{}
}

// say is a message in words, its values in a system of units.
func say(m message.Message, u unit.System) string { return book().In(u).Say(m) }

// word is a text without values, by its id.
func word(id message.ID) string { return book().Text(id) }

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
