// Package sheet puts a job on paper: what the fitter takes to site, what is sawn, what is ordered.
package sheet

import (
	"bytes"
	"io"
	"path/filepath"
	"strings"
	"time"

	"underfall/app/pen"
	"underfall/app/store"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/price"
	"underfall/geometry/unit"
)

// Kind is which sheet it is.
type Kind string

// The sheets.
const (
	Fitter    Kind = "fitter"    // heights, drawings, marking out, what is to be settled
	Cutting   Kind = "cutting"   // every board as it is sawn
	Order     Kind = "order"     // what is bought
	Templates Kind = "templates" // shapes at full size
	Quote     Kind = "quote"     // what it costs, by the user's own prices
)

// Kinds are the sheets that any job has, in the order they are used; a quote takes a list of prices as well.
func Kinds() []Kind { return []Kind{Order, Fitter, Cutting, Templates} }

// Name is the id of what the sheet is called.
func (k Kind) Name() message.ID { return message.ID("sheet." + string(k)) }

// built tells whether the sheet is for whoever builds, not for whoever sells.
func (k Kind) built() bool { return k != Order && k != Quote }

// Ending is how the names of sheets end.
const Ending = ".pdf"

// File is where the sheet is written to, for the path of a name with or without the ending.
func (k Kind) File(path string) string {
	if strings.EqualFold(filepath.Ext(path), Ending) {
		path = path[:len(path)-len(Ending)]
	}
	return path + "-" + string(k) + Ending
}

// KindIDs are the ids of the names of all sheets.
func KindIDs() []message.ID { return message.Names(append(Kinds(), Quote)) }

// Asked is what is to be put on paper.
type Asked struct {
	Kind  Kind
	Paper Paper
	// Made is when, as it stands on every page.
	Made time.Time
	// Prices are the user's own, of a quote alone.
	Prices price.List
	// Customer is whom a quote is for; may be empty.
	Customer string
}

const (
	marginMM  = 12.0
	headHigh  = 40.0 // points
	footHigh  = 20.0
	underHead = 8.0
)

// maker makes the sheet of a result.
type maker struct {
	Asked
	r      geometry.Result
	answer geometry.Answer
	// say writes numbers bare, as the head says what they are in; full with their units.
	say, full words.Book
	// to measures texts.
	to pen.Pen
	// wide is the width between the margins.
	wide float64
}

// Write writes a sheet of a result as a PDF, in words; the answer is the result's own. The error tells a job that
// cannot be drawn, or what could not be written.
func Write(to io.Writer, r geometry.Result, a geometry.Answer, q Asked, b words.Book) error {
	if len(r.Problems) > 0 {
		return message.Fail("sheet.no-result")
	}
	b = b.In(r.Settled.Units)
	title := b.Say(message.Of("sheet.title", message.Name("job", r.Settled.Name), message.In("sheet", message.Of(q.Kind.Name()))))
	doc := pen.NewPDF(assets.TextFont(), assets.BoldFont(), title, b.Language(), q.Made)
	doc.Page(q.Paper.widePoints(), q.Paper.highPoints())
	m := &maker{Asked: q, r: r, answer: a, say: b, full: b, to: doc, wide: q.Paper.widePoints() - 2*marginMM*PointsPerMM}
	if r.Settled.Units == unit.Metric {
		m.say = b.Bare()
	}
	blocks, err := m.blocks()
	if err != nil {
		return err
	}
	pages := paged(blocks, m.room())
	for i, page := range pages {
		if i > 0 {
			doc.Page(q.Paper.widePoints(), q.Paper.highPoints())
		}
		m.page(page, i+1, len(pages))
	}
	return doc.Write(to)
}

// Save writes sheets of a result into files beside each other, each whole or not at all, and gives their paths; the kind of
// what is asked for is that of each. The error is of the first that could not be written.
func Save(path string, kinds []Kind, r geometry.Result, a geometry.Answer, q Asked, b words.Book) (files []string, err error) {
	for _, kind := range kinds {
		var data bytes.Buffer
		q.Kind = kind
		if err := Write(&data, r, a, q, b); err != nil {
			return files, err
		}
		file := kind.File(path)
		if _, err := store.Write(file, data.Bytes()); err != nil {
			return files, message.Wrap(err, "desk.saving", message.Name("file", store.Plain(filepath.Base(file))))
		}
		files = append(files, file)
	}
	return files, nil
}

// room is how high a page's contents may be.
func (m *maker) room() float64 {
	return m.Paper.highPoints() - 2*marginMM*PointsPerMM - headHigh - underHead - footHigh
}

func (m *maker) blocks() ([]block, error) {
	switch m.Kind {
	case Cutting:
		return m.cutting()
	case Order:
		return m.order()
	case Quote:
		return m.quote()
	case Templates:
		return m.templates(), nil
	}
	return m.fitter(), nil
}

// page draws a page: its head, its blocks, its foot.
func (m *maker) page(blocks []block, n, of int) {
	const margin = marginMM * PointsPerMM
	right := margin + m.wide
	put := func(text string, x, y float64, s style) {
		m.to.Text(text, placing.Point{x, y}, s.size, s.face, s.ink())
	}
	putRight := func(text string, y float64, s style) { put(text, right-m.to.TextWidth(text, s.size, s.face), y, s) }
	made := m.Made.Format("2006-01-02, 15:04")
	large, apart := style{size: titlePoints, face: pen.Bold}, 20.0
	title := wrapped(m.to, m.r.Settled.Name, large, m.wide-m.to.TextWidth(made, bodyPoints, pen.Regular)-apart)[0]
	put(title, margin, margin+titlePoints, large)
	which := []message.Arg{message.In("sheet", message.Of(m.Kind.Name())), message.No("n", n), message.No("of", of)}
	said := m.full.Say(message.Of("sheet.line", which...))
	if m.Kind.built() {
		said = m.full.Say(message.Of("sheet.line-built", append(which, message.In("units", message.Of(unitsOf(m.r.Settled.Units))))...))
	}
	put(said, margin, margin+titlePoints+bodyPoints*1.6, style{size: bodyPoints})
	putRight(made, margin+titlePoints, style{size: bodyPoints})
	y := margin + headHigh - 8
	m.to.Stroke([]placing.Straight{{{margin, y}, {right, y}}}, 1.6, ink())
	y = margin + headHigh + underHead
	for _, b := range blocks {
		if b.draw != nil {
			b.draw(m.to, placing.Point{margin, y})
		}
		y += b.high
	}
	foot := m.Paper.highPoints() - margin
	m.to.Stroke([]placing.Straight{{{margin, foot - 10}, {right, foot - 10}}}, 0.6, ruleInk())
	small := style{size: smallPoints, soft: true}
	putRight(m.full.Text("sheet.informs"), foot, small)
	if line := m.answer.ChanceLine(); m.Kind.built() && !line.IsZero() {
		put(m.full.Say(line), margin, foot, small)
	}
}

// unitsOf is the id of what a sheet's numbers are in.
func unitsOf(u unit.System) message.ID {
	if u == unit.Metric {
		return "sheet.in-mm"
	}
	return "sheet.in-inches"
}
