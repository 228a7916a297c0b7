package theme

import (
	"fyne.io/fyne/v2"
	"underfall/app/words"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Book is the language of the running program.
func Book() words.Book {
	if t, ok := fyne.CurrentApp().Settings().Theme().(*Theme); ok {
		return *t.book.Load()
	}
	return words.Book{}
}

// Say is a message in words, its values in a system of units.
func Say(m message.Message, u unit.System) string { return Book().In(u).Say(m) }

// Sentence is Say with its first letter large.
func Sentence(m message.Message, u unit.System) string { return words.Capital(Say(m, u)) }

// Word is a text whose values have no units, by its id; nothing for none.
func Word(id message.ID, args ...message.Arg) string { return Book().Say(message.Of(id, args...)) }

// Because is the reason of an error, to go into a message: in the catalogue's words
// where it has them.
func Because(name string, err error) message.Arg { return message.In(name, message.OfError(err)) }

// Bare is Say where the unit is clear: numbers stand alone in millimetres.
func Bare(m message.Message, u unit.System) string { return Book().In(u).Bare().Say(m) }
