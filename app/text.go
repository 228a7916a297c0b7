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

// word is a text whose values have no units, by its id; nothing for none.
func word(id message.ID, args ...message.Arg) string { return book().Say(message.Of(id, args...)) }

// because is the reason of an error, to go into a message: in the catalogue's words
// where it has them.
func because(name string, err error) message.Arg { return message.In(name, message.OfError(err)) }

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
