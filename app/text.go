package app

import (
	"fyne.io/fyne/v2"
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
