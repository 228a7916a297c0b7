// Package words turns what Underfall has to say into words: the one catalogue at
// the edge, for the screen, for drawings and for the command line.
package words

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"reflect"
	"regexp"
	"slices"
	"strings"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	"github.com/nicksnyder/go-i18n/v2/i18n/template"
	"golang.org/x/text/language"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// The languages there are. MadeUp is English put in brackets and drawn out, to see
// what does not go through the catalogue or finds no room; it has the tag that the
// Unicode locale data give such a language.
const (
	British  = "en-GB"
	American = "en-US"
	MadeUp   = "en-XA"
)

// Wanted is the tag of the language that a computer's settings ask for: American
// English where they name it, else British.
func Wanted(setting func(name string) string) string {
	for _, name := range []string{"UNDERFALL_LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"} {
		asked, _, _ := strings.Cut(setting(name), ".")
		switch tag := strings.ReplaceAll(asked, "_", "-"); tag {
		case "":
		case British, American, MadeUp:
			return tag
		default:
			return British
		}
	}
	return British
}

// Shelf holds the catalogues of all languages.
type Shelf struct {
	bundle *i18n.Bundle
	texts  map[string]map[message.ID]*i18n.Message
	// Broken are the catalogues that could not be read, in words for whoever mends
	// them; their language says everything in British English. Mostly empty.
	Broken []error
}

// Load reads the catalogues in a folder: a folder for each language, named by its
// tag, with a file (*.json) for each part of Underfall. A broken file is left out and
// told of, but for a British one: there is nothing to fall back on, and that is an
// error.
func Load(files fs.FS) (*Shelf, error) {
	names, err := fs.Glob(files, "*/*.json")
	if err != nil {
		return nil, fmt.Errorf("listing the catalogues of words: %w", err)
	}
	s := &Shelf{bundle: i18n.NewBundle(language.MustParse(British)), texts: map[string]map[message.ID]*i18n.Message{}}
	s.bundle.RegisterUnmarshalFunc("json", json.Unmarshal)
	for _, name := range names {
		tag := path.Dir(name)
		if err := s.read(files, name, tag); err != nil {
			if tag == British {
				return nil, err
			}
			s.Broken = append(s.Broken, err)
		}
	}
	if len(s.texts[British]) == 0 {
		return nil, fmt.Errorf("the catalogue of words for %s is missing", British)
	}
	return s, nil
}

func (s *Shelf) read(files fs.FS, name, tag string) error {
	data, err := fs.ReadFile(files, name)
	if err != nil {
		return fmt.Errorf("reading the words of %s: %w", name, err)
	}
	file, err := s.bundle.ParseMessageFileBytes(data, tag+".json")
	if err != nil {
		return fmt.Errorf("reading the words of %s: %w", name, err)
	}
	if s.texts[tag] == nil {
		s.texts[tag] = map[message.ID]*i18n.Message{}
	}
	for _, m := range file.Messages {
		id := message.ID(m.ID)
		if s.texts[tag][id] != nil {
			return fmt.Errorf("reading the words of %s: %s has a text already", name, id)
		}
		s.texts[tag][id] = m
	}
	return nil
}

// Fault says which catalogues could not be read, and what that means; nothing when all
// could.
func (s *Shelf) Fault() message.Message {
	if len(s.Broken) == 0 {
		return message.Message{}
	}
	var reasons []string
	for _, err := range s.Broken {
		reasons = append(reasons, err.Error())
	}
	return message.Of("words.broken", message.Name("reason", strings.Join(reasons, "; ")))
}

// Book is one language for one system of units. A Book is a value, to be used from
// anywhere at once; the zero Book has no words and shows ids.
type Book struct {
	localizer *i18n.Localizer
	language  string
	units     unit.System
	point     string // the decimal mark
	bare      bool
	drawn     bool                                  // fractions are written as they are printed, where that can be read
	levels    func(levelMM float64) message.Message // how a level is told; nil for over the datum of the job
	missing   func(message.Message)
}

// Book is the book of a language, by its tag; British English where there is none
// of it. missing is told of every message without a text, and may be nil.
func (s *Shelf) Book(tag string, units unit.System, missing func(message.Message)) Book {
	b := Book{language: tag, units: units, point: decimalMark(tag), missing: missing}
	b.localizer = i18n.NewLocalizer(s.bundle, tag, British)
	return b
}

// In is the book in a system of units.
func (b Book) In(units unit.System) Book {
	b.units = units
	return b
}

// Bare is the book where the unit is clear once for all, as on a drawing: lengths and levels in
// millimetres are told as numbers alone, and a fall in one way only.
func (b Book) Bare() Book {
	b.bare = true
	return b
}

// Levels is the book where levels are told as they are read from something else than the job's datum; levels
// in what read says stand as they are.
func (b Book) Levels(read func(levelMM float64) message.Message) Book {
	b.levels = read
	return b
}

// Language is the tag of the book's language.
func (b Book) Language() string { return b.language }

// Say is a message in words. One without a text shows its id and values, so that
// nothing is ever silent.
func (b Book) Say(m message.Message) string {
	if m.IsZero() {
		return ""
	}
	if b.localizer == nil {
		return m.String()
	}
	values := make(map[string]string, len(m.Args))
	var plural any
	for _, a := range m.Args {
		values[a.Name] = b.Value(a.Value)
		if n, ok := a.Value.(message.Count); ok && plural == nil {
			plural = int(n)
		}
	}
	text, err := b.localizer.Localize(&i18n.LocalizeConfig{
		MessageID: string(m.ID), TemplateData: values, PluralCount: plural, TemplateParser: strict()})
	// A language without a text of its own has the British one.
	if elsewhere := (*i18n.MessageNotFoundErr)(nil); err != nil && !(errors.As(err, &elsewhere) && text != "") {
		if b.missing != nil {
			b.missing(m)
		}
		return m.String()
	}
	if b.language == MadeUp {
		return drawnOut(text)
	}
	return text
}

// Text is a message that has no values, by its id.
func (b Book) Text(id message.ID) string { return b.Say(message.Of(id)) }

// strict refuses a text that asks for a value its message does not have.
func strict() template.Parser { return &template.TextParser{Option: "missingkey=error"} }

// IDs are the ids a language has texts of its own for, in order.
func (s *Shelf) IDs(tag string) []message.ID { return slices.Sorted(maps.Keys(s.texts[tag])) }

// OwnText tells that a language's own text for an id is another than the British one.
func (s *Shelf) OwnText(tag string, id message.ID) bool {
	return !reflect.DeepEqual(s.texts[tag][id], s.texts[British][id])
}

// Asks are the names of the values that a language's own text for an id asks for, in
// all its plurals.
func (s *Shelf) Asks(tag string, id message.ID) []string {
	m := s.texts[tag][id]
	if m == nil {
		return nil
	}
	var names []string
	for _, text := range []string{m.Zero, m.One, m.Two, m.Few, m.Many, m.Other} {
		for _, found := range asked().FindAllStringSubmatch(text, -1) {
			if !slices.Contains(names, found[1]) {
				names = append(names, found[1])
			}
		}
	}
	return names
}

func asked() *regexp.Regexp { return regexp.MustCompile(`{{\s*\.(\w+)\s*}}`) }
