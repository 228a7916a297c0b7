// Package sheet puts a job on paper: what the fitter takes to site, what is sawn, what is ordered.
package sheet

import (
	"bytes"
	"image"
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
	Customer  Kind = "customer"  // what it will be, in plain words, to be agreed to
	Quote     Kind = "quote"     // what it costs, by the user's own prices
	Glossary  Kind = "glossary"  // the words of the trade, in drawings of the job and with what they mean
)

// Kinds are the sheets that any job has, in the order they are used; a quote takes a list of prices as well.
func Kinds() []Kind { return []Kind{Customer, Order, Fitter, Cutting, Templates, Glossary} }

// AllKinds are the sheets that there are, with a quote.
func AllKinds() []Kind { return append(Kinds(), Quote) }

// Name is the id of what the sheet is called.
func (k Kind) Name() message.ID { return message.ID("sheet." + string(k)) }

// built tells whether the sheet is for whoever builds, not for whoever sells.
func (k Kind) built() bool { return k == Fitter || k == Cutting || k == Templates }

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
func KindIDs() []message.ID { return message.Names(AllKinds()) }

// Asked is what is to be put on paper.
type Asked struct {
	Kind  Kind
	Paper Paper
	// Made is when, as it stands on every page.
	Made time.Time
	// Prices are the user's own, of a quote; without rows for none. Costs has a customer's sheet say what it comes to by them.
	Prices price.List
	Costs  bool
	// Customer is whom a quote or a customer's sheet is for; may be empty.
	Customer string
	// Address is where the job is, Number what its order is found by; they stand at the head of every page and may be empty.
	Address, Number string
	// Until is the day until which a quote holds, as it is typed; may be empty.
	Until string
	// By is who makes the sheet, as it stands at the foot of every page with their logo; may be empty, Logo nil.
	By   string
	Logo image.Image
	// State is which saved state of the job it is of, 0 for one that never was; Changed that it was changed since.
	State   int
	Changed bool
	// Picture is of the finished shower, of a customer's sheet alone; nil for none. Draft tells that it is only to look at the sheet by:
	// the one that is written has another.
	Picture image.Image
	Draft   bool
	// Samples is how often each point of the picture was followed, 0 where that is not known.
	Samples int
}

const (
	marginMM  = 12.0
	headHigh  = 40.0 // points
	footHigh  = 26.0
	footLine  = 15.0 // from the foot of a page's texts up to the line over them
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

// Document is a sheet as it is laid out on its pages, which can be drawn with any pen.
type Document struct {
	m     *maker
	pages [][]block
	doc   *pen.PDF
}

// Lay lays a sheet of a result out, in words; the answer is the result's own. The error tells a job that cannot be drawn.
func Lay(r geometry.Result, a geometry.Answer, q Asked, b words.Book) (Document, error) {
	if len(r.Problems) > 0 {
		return Document{}, message.Fail("sheet.no-result")
	}
	b = b.In(r.Settled.Units).Drawn()
	title := b.Say(message.Of("sheet.title", message.Name("job", r.Settled.Name), message.In("sheet", message.Of(q.Kind.Name()))))
	doc := pen.NewPDF(assets.TextFont(), assets.BoldFont(), title, b.Language(), q.Made)
	m := &maker{Asked: q, r: r, answer: a, say: b, full: b, to: doc, wide: q.Paper.widePoints() - 2*marginMM*PointsPerMM}
	if r.Settled.Units == unit.Metric {
		m.say = b.Bare()
	}
	blocks, err := m.blocks()
	if err != nil {
		return Document{}, err
	}
	return Document{m: m, pages: paged(blocks, m.room()), doc: doc}, nil
}

// Pages is how many pages the sheet has.
func (d Document) Pages() int { return len(d.pages) }

// Draw draws a page, counted from nought, in points of its paper.
func (d Document) Draw(to pen.Pen, page int) { d.m.page(to, d.pages[page], page+1, len(d.pages)) }

// Write writes the document as a PDF, once; the error is of what could not be written.
func (d Document) Write(to io.Writer) error {
	for i := range d.pages {
		d.doc.Page(d.m.Paper.widePoints(), d.m.Paper.highPoints())
		d.Draw(d.doc, i)
	}
	return d.doc.Write(to)
}

// Write writes a sheet of a result as a PDF, in words; the answer is the result's own. The error tells a job that
// cannot be drawn, or what could not be written.
func Write(to io.Writer, r geometry.Result, a geometry.Answer, q Asked, b words.Book) error {
	d, err := Lay(r, a, q, b)
	if err != nil {
		return err
	}
	return d.Write(to)
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
		return m.templates()
	case Customer:
		return m.customer()
	case Glossary:
		return m.glossary(), nil
	}
	return m.fitter()
}

// page draws a page: its head, its blocks, its foot.
func (m *maker) page(to pen.Pen, blocks []block, n, of int) {
	const margin = marginMM * PointsPerMM
	m.head(to, n, of)
	y := margin + headHigh + underHead
	for _, b := range blocks {
		if b.draw != nil {
			b.draw(to, placing.Point{margin, y})
		}
		y += b.high
	}
	m.foot(to)
}

// put writes a text on a line from its left end, or up to its right one.
func (m *maker) put(to pen.Pen, text string, at placing.Point, s style, right bool) {
	if right {
		at[0] -= m.to.TextWidth(text, s.size, s.face)
	}
	to.Text(text, at, s.size, s.face, s.ink())
}

// head is what stands over every page: the job, which sheet it is, which page.
func (m *maker) head(to pen.Pen, n, of int) {
	const margin = marginMM * PointsPerMM
	right, second := margin+m.wide, margin+titlePoints+bodyPoints*1.6
	large := style{size: titlePoints, face: pen.Bold}
	const apart = 12.0
	named := m.wide
	if of := m.ordered(); of != "" {
		of = m.oneLine(of, strong(), m.wide/2)
		m.put(to, of, placing.Point{right, margin + titlePoints}, strong(), true)
		named -= m.to.TextWidth(of, bodyPoints, pen.Bold) + apart
	}
	name := m.r.Settled.Name
	large.size = max(headingPoints, large.size*min(1, named/max(1, m.to.TextWidth(name, large.size, large.face))))
	m.put(to, m.oneLine(name, large, named), placing.Point{margin, margin + titlePoints}, large, false)
	which := []message.Arg{message.In("sheet", message.Of(m.Kind.Name())), message.No("n", n), message.No("of", of)}
	said, left := m.full.Say(message.Of("sheet.line", which...)), m.wide
	switch {
	case m.Kind == Customer:
		said = m.full.Say(message.Of("customer.line", which[1:]...))
	case m.Kind.built():
		said = m.full.Say(message.Of("sheet.line-built", append(which, message.In("units", message.Of(unitsOf(m.r.Settled.Units))),
			message.In("over", message.Of(m.r.NameOf(geometry.OverStructure))))...))
		if line := m.answer.ChanceLine(); m.answer.Counted && !line.IsZero() { // what is still being counted is nothing to print
			chance := m.full.Say(line)
			m.put(to, chance, placing.Point{right, second}, body(), true)
			left -= m.to.TextWidth(chance, bodyPoints, pen.Regular) + apart
		}
	}
	m.put(to, m.oneLine(said, body(), left), placing.Point{margin, second}, body(), false)
	y := margin + headHigh - 8
	to.Stroke([]placing.Straight{{{margin, y}, {right, y}}}, 1.6, ink())
}

// ordered is where the job is and what its order is found by, as far as that is told.
func (m *maker) ordered() string {
	address, number := strings.TrimSpace(m.Address), strings.TrimSpace(m.Number)
	switch {
	case number == "":
		return address
	case address == "":
		return m.full.Say(message.Of("sheet.number", message.Name("number", number)))
	}
	return m.full.Say(message.Of("sheet.address-number", message.Name("address", address), message.Name("number", number)))
}

// foot is the line under every page: who made it, when, of which state of the job.
func (m *maker) foot(to pen.Pen) {
	const margin, logoHigh, apart = marginMM * PointsPerMM, 16.0, 12.0
	right, foot := margin+m.wide, m.Paper.highPoints()-margin
	to.Stroke([]placing.Straight{{{margin, foot - footLine}, {right, foot - footLine}}}, 0.6, ruleInk())
	small, left := style{size: smallPoints, soft: true}, margin
	informs := ""
	if m.Kind != Quote { // what a quote promises is for whoever makes it to say
		informs = m.full.Text("sheet.informs")
	}
	m.put(to, informs, placing.Point{right, foot}, small, true)
	if m.Logo != nil {
		wide, high := fitted(m.Logo, m.wide/4, logoHigh)
		to.Picture(m.Logo, placing.Box{Low: placing.Point{left, foot + 3 - high}, High: placing.Point{left + wide, foot + 3}})
		left += wide + apart/2
	}
	made := message.Of("sheet.made", message.Name("date", m.Made.Format("2006-01-02, 15:04")), message.In("state", m.state()))
	if m.Kind == Quote && m.State == 0 { // how a job is kept is nothing to a customer
		made = message.Of("sheet.made-date", message.Name("date", m.Made.Format("2006-01-02, 15:04")))
	}
	stands := m.full.Say(made)
	room := right - left - apart - m.to.TextWidth(informs, small.size, small.face)
	if m.By != "" {
		by := m.oneLine(m.By, small, room-m.to.TextWidth(" · "+stands, small.size, small.face))
		stands = m.full.Say(message.Of("sheet.made-by", message.Name("by", by), message.In("made", made)))
	}
	m.put(to, stands, placing.Point{left, foot}, small, false)
}

// state is which saved state of the job the sheet is of.
func (m *maker) state() message.Message {
	switch {
	case m.State == 0:
		return message.Of("sheet.state-none")
	case m.Changed:
		return message.Of("sheet.state-changed", message.No("n", m.State))
	}
	return message.Of("sheet.state", message.No("n", m.State))
}

// fitted is how wide and high a picture is drawn in a box, without being stretched.
func fitted(img image.Image, wide, high float64) (float64, float64) {
	size := img.Bounds().Size()
	times := min(wide/float64(max(1, size.X)), high/float64(max(1, size.Y)))
	return times * float64(size.X), times * float64(size.Y)
}

// unitsOf is the id of what a sheet's numbers are in.
func unitsOf(u unit.System) message.ID {
	if u == unit.Metric {
		return "sheet.in-mm"
	}
	return "sheet.in-inches"
}
