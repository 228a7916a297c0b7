package command

import (
	"context"
	"fmt"
	"io"
	"strings"

	"underfall/app/store"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/search"
	"underfall/geometry/ways"
)

// checkRuns lists the ways out that a job's waste has, those that little change would give, and why it has no others.
func checkRuns(r geometry.Result, config string, b words.Book, out, errs io.Writer) int {
	known, err := assets.Parts()
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	own, err := store.OwnParts(store.ConfigFolder(config), known)
	if err != nil {
		tell(errs, b, err)
	}
	s, err := ways.Look(context.Background(), r.Stated, r.Pack, known.With(own), nil)
	if err != nil {
		tell(errs, b, err)
		return exitBad
	}
	if err := printRuns(out, s, r, b); err != nil {
		tell(errs, b, err)
		return exitBad
	}
	if len(s.Found) == 0 {
		return exitStops
	}
	return exitClean
}

// printRuns prints the runs as the window lists them, and a line for each way out without one.
func printRuns(out io.Writer, s search.Outcome, r geometry.Result, b words.Book) error {
	of, now := r.Stated, ways.RaisedOf(r)
	var text strings.Builder
	line := func(indent string, m message.Message) {
		for part := range strings.SplitSeq(b.Say(m), "\n") {
			text.WriteString(indent + words.Capital(part) + "\n")
		}
	}
	line("", ways.FoundNote(s, of, false))
	var last message.ID
	for _, l := range ways.Listings(s) {
		if l.Heading != last {
			line("\n", message.Of(l.Heading))
		}
		last = l.Heading
		for _, m := range l.Title() {
			line("  ", m)
		}
		var details []string
		for _, m := range ways.Detail(*l.Run, of, now) {
			details = append(details, b.Say(m))
		}
		text.WriteString("    " + strings.Join(details, " · ") + "\n")
		line("    ", l.Below())
	}
	if h := s.Hindrance; h != nil {
		line("\n", ways.HindranceMessage(h, of))
	}
	if closed := ways.ClosedOf(s, of, r.Pack); len(closed) > 0 {
		line("\n", message.Of("run.closed"))
		for _, c := range closed {
			line("  ", c.Said)
		}
	}
	_, err := fmt.Fprint(out, text.String())
	return err
}
