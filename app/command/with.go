package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"underfall/app/store"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/fit"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// checkWith answers whether a part goes with a job's floor.
func checkWith(r geometry.Result, name, config string, asJSON bool, b words.Book, out, errs io.Writer) int {
	p, err := partCalled(name, store.ConfigFolder(config))
	var a fit.Answer
	if err == nil {
		a, err = fit.Try(r, p, r.Pack)
	}
	if err == nil && asJSON {
		err = printFitJSON(out, a, b)
	} else if err == nil {
		err = printFit(out, a, b)
	}
	switch {
	case err != nil:
		tell(errs, b, err)
		return exitBad
	case a.Verdict() == fit.Not:
		return exitStops
	}
	return exitClean
}

// partCalled is the part at hand of an id, or of kind:id where several kinds have one of
// it; else that of a file with a single part.
func partCalled(name, folder string) (part.Part, error) {
	known, err := assets.Parts()
	if err != nil {
		return nil, err
	}
	own, ownErr := store.OwnParts(folder, known)
	shelf := known.With(own)
	kind, id, stated := strings.Cut(name, ":")
	if !stated {
		kind, id = "", name
	}
	var found []part.Part
	several := message.List{Or: true}
	for _, k := range part.Kinds() {
		if p := shelf.Find(k, id); p != nil && (kind == "" || part.Kind(kind) == k) {
			found = append(found, p)
			several.Items = append(several.Items, message.Text(string(k)+":"+id))
		}
	}
	switch len(found) {
	case 0:
	case 1:
		return found[0], nil
	default:
		return nil, message.Fail("cli.with-several", message.Name("part", name), message.Arg{Name: "choices", Value: several})
	}
	p, err := partIn(name, known)
	if errors.Is(err, fs.ErrNotExist) {
		if ownErr != nil { // it may be one of them
			return nil, ownErr
		}
		return nil, message.Fail("cli.with-unknown", message.Name("part", name))
	}
	return p, err
}

// partIn is the one part of a file.
func partIn(path string, known part.Shelf) (part.Part, error) {
	s, err := store.ReadParts(path)
	if err != nil {
		return nil, err
	}
	if err := s.Named(known); err != nil {
		return nil, message.Wrap(err, "store.reading-parts", message.Name("file", store.Plain(path)))
	}
	var all []part.Part
	for p := range s.Each {
		all = append(all, p)
	}
	if len(all) != 1 {
		return nil, message.Fail("cli.with-one-part", message.Name("file", store.Plain(path)), message.N("n", len(all)))
	}
	return all[0], nil
}

// printFit prints an answer, a line for each thing that it tells.
func printFit(out io.Writer, a fit.Answer, b words.Book) error {
	text := b.Say(a.Message()) + "\n"
	for _, d := range a.Details() {
		text += "  " + b.Say(d) + "\n"
	}
	_, err := io.WriteString(out, text)
	return err
}

// fitReport is what check -with prints as JSON.
type fitReport struct {
	Part    fitPart `json:"part"`
	Goes    bool    `json:"goes"`
	Changes bool    `json:"changes"`
	// Why the part cannot be chosen at all; what follows is then empty.
	Why       []string        `json:"why,omitempty"`
	RaiseMM   float64         `json:"raiseMM"`
	RaiseByMM float64         `json:"raiseByMM"`
	FitsWas   float64         `json:"fitsWas"`
	Fits      float64         `json:"fits"`
	Rows      []fitRow        `json:"rows"`
	New       []reportFinding `json:"new"`
	Gone      []reportFinding `json:"gone"`
}

type fitPart struct {
	Kind part.Kind `json:"kind"`
	ID   string    `json:"id"`
	Name string    `json:"name"`
}

// fitRow is a row of the schedule; its values are mm, or rise over run for a fall, and
// null where the row is not there.
type fitRow struct {
	Label  string          `json:"label"`
	Kind   buildup.RowKind `json:"kind"`
	Before *float64        `json:"before"`
	After  *float64        `json:"after"`
	ByMM   float64         `json:"byMM"`
}

func printFitJSON(out io.Writer, a fit.Answer, b words.Book) error {
	verdict := a.Verdict()
	rep := fitReport{
		Part: fitPart{a.Part.Kind(), a.Part.Of().ID, b.Say(part.Name(a.Part))},
		Goes: verdict != fit.Not, Changes: verdict == fit.Changes,
		RaiseMM: round(a.RaiseMM), RaiseByMM: a.RaiseByMM, FitsWas: round(a.FitsWas), Fits: round(a.Fits),
		Rows: []fitRow{}, New: reporter{b}.findings(a.New), Gone: reporter{b}.findings(a.Gone),
	}
	for _, w := range a.Why {
		rep.Why = append(rep.Why, b.Say(w))
	}
	for _, c := range a.Rows {
		row := fitRow{Label: b.Say(c.Row.Message()), Kind: c.Row.Kind(), ByMM: c.ByMM()}
		if !c.New {
			before := round6(c.Was)
			row.Before = &before
		}
		if !c.Gone {
			after := round6(c.Row.Value)
			row.After = &after
		}
		rep.Rows = append(rep.Rows, row)
	}
	return printIndented(out, rep)
}

// printIndented prints a value as JSON.
func printIndented(out io.Writer, value any) error {
	data, err := json.MarshalIndent(value, "", "  ")
	if err != nil {
		return fmt.Errorf("printing as JSON: %w", err)
	}
	_, err = fmt.Fprintln(out, escaped(data))
	return err
}
