// Package papers is the room in which sheets are looked at before they are written: which ones, on what paper, for whom, from whom,
// by whose prices.
package papers

import (
	"cmp"
	"image"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/guard"
	"underfall/app/pen"
	"underfall/app/sheet"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/price"
)

// Asks are what the room asks of the window.
type Asks struct {
	Result geometry.Result // of the job that is put on paper
	Answer geometry.Answer
	// Asked has which state of the job it is, and when it is put on paper.
	Asked sheet.Asked
	Words words.Book
	Fonts *pen.Fonts
	Guard *guard.Guard
	Keys  *control.Keys
	// OnWindow runs a function where the window lives.
	OnWindow func(func())
	// Kept is what is kept on this machine from one time to the next.
	Kept Kept
	// Prices and Logo ask for a file of prices and of a logo.
	Prices, Logo func(chosen func(path string))
	// Table asks for a place and writes a table of prices there to be filled in, with what the list given has already; it hands over the file.
	Table func(list price.List, written func(path string))
	// For is what the sheets are of, by which the work typed for it is found again: that of another is not meant for it.
	For string
	// Draft draws a quick picture of the finished shower beside the window and hands it over where the window lives, unless there is none.
	Draft func(take func(image.Image))
	// Into is the folder that sheets are written into until another is chosen, which Folder asks for.
	Into   string
	Folder func(chosen func(folder string))
	// Write writes sheets as they are asked for, each into a file of its own named after the path, and opens the first of them where that
	// is wanted.
	Write func(path string, kinds []sheet.Kind, q sheet.Asked, open bool)
	Close func()
}

// Kept keeps texts by their keys.
type Kept interface {
	String(key string) string
	SetString(key, value string)
}

// What is kept on this machine: the user's name, whom and where each job is for and its order, the files of their logo and their prices,
// their currency and tax, and the work that was typed last with its prices, and for what.
const (
	byKey       = "paper-by"
	customerKey = "paper-customer" // of each job, as address and number
	addressKey  = "paper-address"
	numberKey   = "paper-number"
	untilKey    = "paper-until"
	logoKey     = "paper-logo"
	pricesKey   = "paper-prices"
	currencyKey = "paper-currency"
	taxKey      = "paper-tax"
	workKey     = "paper-work"
	workFor     = "paper-work-for"
)

// all stands for every sheet there is.
const all = "all"

// PartPreview is how a fault in drawing pages is told.
const PartPreview message.ID = "fault.paper"

// Room is the room while it is open. It is for the window's goroutine.
type Room struct {
	asks   Asks
	object fyne.CanvasObject

	which, paper    *control.Pick
	customer, by    *control.Entry
	address, number *control.Entry
	until           *control.Entry
	work            *control.Entry
	// Those of the file of prices stand where nothing is typed, then those of the country; what is typed is kept by the country.
	currency, tax    *control.Entry
	costs            *control.Check
	prices, logo     *control.Press
	into             string         // the folder that sheets are written into
	folder           *control.Press // chooses another
	writes           *control.Text  // what is written, and where
	noPrices, noLogo *control.Press
	table, lastWork  *control.Press // writes a table of prices; takes the work of the job before
	back, on         *control.Press
	at, told         *control.Text
	noTax            *control.Text // that there is no one tax, where none is stated
	scroll           *control.Scroller
	page             *pageView

	list price.List // of the user's file
	// wrong is what is wrong with what was chosen: of the prices, of the logo, of the work, of the tax.
	wrong [4]string
	shown int // the page that is looked at, from nought
	pages int // of the sheet
	asked sheet.Asked
	// draft is the quick picture that a customer's sheet is looked at with, nil before it is drawn; drafting tells that it was asked for.
	draft    image.Image
	drafting bool
	// drawing tells that pages are being drawn, again that they have to be once more.
	drawing, again bool
}

// Places of what is wrong.
const (
	wrongPrices = iota
	wrongLogo
	wrongWork
	wrongTax
)

// Open makes the room.
func Open(a Asks) *Room {
	r := &Room{asks: a, asked: a.Asked, page: newPageView(), into: a.Into}
	r.asked.Kind = cmp.Or(a.Asked.Kind, sheet.Fitter)
	r.which = control.NewPick(a.Keys, theme.Word("paper.which"), offered(), string(r.asked.Kind), r.Choose)
	r.paper = control.NewPick(a.Keys, theme.Word("paper.paper"), papers(), a.Asked.Paper.Key, func(key string) {
		if p, err := sheet.PaperOf(key); err == nil {
			r.asked.Paper = p
			r.draw()
		}
	})
	r.noTax = control.NewWrapped(theme.Word("paper.tax-yours")).Styled(theme.TextCaption, false, theme.Caption)
	r.customer = r.ofJob(customerKey, &r.asked.Customer)
	r.address, r.number = r.ofJob(addressKey, &r.asked.Address), r.ofJob(numberKey, &r.asked.Number)
	r.until = r.ofJob(untilKey, &r.asked.Until)
	r.by = r.entry(control.NewEntry(a.Keys), byKey, a.Kept.String(byKey), func(text string) { r.asked.By = text })
	priced := func(string) { r.takeWork(r.work.Text) }
	r.currency = r.entry(control.NewEntry(a.Keys), r.ofCountry(currencyKey), a.Kept.String(r.ofCountry(currencyKey)), priced)
	r.tax = r.entry(control.NewEntry(a.Keys), "", a.Kept.String(r.ofCountry(taxKey)), func(typed string) {
		if r.takeWork(r.work.Text); r.wrong[wrongTax] == "" {
			a.Kept.SetString(r.ofCountry(taxKey), typed)
		}
	})
	r.costs = control.NewCheck(a.Keys, theme.Word("paper.costs"), func(so bool) {
		r.asked.Costs = so
		r.draw()
	})
	work := ""
	if a.Kept.String(workFor) == a.For {
		work = a.Kept.String(workKey)
	}
	r.work = r.entry(control.NewLinesEntry(a.Keys, 3), workKey, work, func(text string) {
		a.Kept.SetString(workFor, a.For)
		r.takeWork(text)
	})
	r.lastWork = control.NewPress(a.Keys, theme.Word("paper.work-as-last"), func() {
		r.work.SetText(a.Kept.String(workKey))
		r.work.OnLeave()
	})
	r.work.SetPlaceHolder(theme.Word("paper.work-example"))
	r.prices = control.NewPress(a.Keys, named(""), func() { a.Prices(r.TakePrices) })
	r.table = control.NewPress(a.Keys, theme.Word("paper.table"), func() { a.Table(r.list.In(r.region()), r.TakePrices) })
	r.noPrices = control.NewPress(a.Keys, theme.Word("paper.none"), func() { r.TakePrices("") })
	r.logo = control.NewPress(a.Keys, named(""), func() { a.Logo(r.TakeLogo) })
	r.noLogo = control.NewPress(a.Keys, theme.Word("paper.none"), func() { r.TakeLogo("") })
	r.folder = control.NewPress(a.Keys, theme.Word("paper.elsewhere"), func() { a.Folder(r.Into) })
	r.back = control.NewPress(a.Keys, theme.Word("paper.back"), func() { r.turn(-1) })
	r.on = control.NewPress(a.Keys, theme.Word("paper.on"), func() { r.turn(1) })
	r.at = control.NewText("").Styled(theme.TextSecond, false, theme.Ink)
	r.writes = control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink)
	r.told = control.NewWrapped("").Styled(theme.TextSecond, false, theme.Tight)
	r.object = r.built()
	r.asked.By = r.by.Text
	r.readPrices(a.Kept.String(pricesKey))
	r.readLogo(a.Kept.String(logoKey))
	r.tellWhere()
	r.draw()
	return r
}

// papers are the papers to choose from.
func papers() (out []control.Option) {
	for _, p := range sheet.Papers() {
		out = append(out, control.Option{ID: p.Key, Text: theme.Word(p.Name())})
	}
	return out
}

// ofJob is a field that is kept with the job that it was typed for.
func (r *Room) ofJob(key string, of *string) *control.Entry {
	key += " " + r.asks.For
	*of = r.asks.Kept.String(key)
	return r.entry(control.NewEntry(r.asks.Keys), key, *of, func(text string) { *of = text })
}

// entry has what is typed taken and kept once it is left, and shown at once.
func (r *Room) entry(e *control.Entry, key, text string, take func(string)) *control.Entry {
	e.SetText(text)
	taken := text
	e.OnLeave = func() {
		if e.Text == taken {
			return
		}
		taken = e.Text
		take(taken)
		if key != "" {
			r.asks.Kept.SetString(key, taken)
		}
		r.draw()
	}
	e.OnEscape = r.asks.Close
	if !e.MultiLine {
		e.OnSubmitted = func(string) { e.OnLeave() }
	}
	return e
}

// built is the room with its controls at the left and the page at the right.
func (r *Room) built() fyne.CanvasObject {
	named := func(name message.ID, o ...fyne.CanvasObject) fyne.CanvasObject {
		head := control.NewText(theme.Word(name)).Styled(theme.TextSecond, true, theme.Ink)
		return container.NewVBox(append([]fyne.CanvasObject{head}, o...)...)
	}
	beside := func(first, then fyne.CanvasObject) fyne.CanvasObject {
		return container.NewBorder(nil, nil, nil, then, first)
	}
	form := container.NewVBox(named("paper.which", r.which), named("paper.paper", r.paper), named("paper.customer", r.customer),
		named("paper.address", r.address), named("paper.number", r.number),
		named("paper.by", r.by), named("paper.logo", beside(r.logo, r.noLogo)), named("paper.prices", beside(r.prices, r.noPrices), r.table),
		container.NewGridWithColumns(2, named("paper.currency", r.currency), named("paper.tax", r.tax)), r.noTax,
		named("paper.until", r.until), named("paper.work", r.work, r.lastWork), r.costs)
	left := container.New(atLeast{leftWide}, control.NewScroller(container.New(layout.NewCustomPaddedLayout(0, 0, 0, barRoom), form)))
	r.scroll = control.NewScroller(r.page.object)
	turning := container.NewBorder(nil, nil, r.back, r.on, container.NewCenter(r.at))
	right := container.NewBorder(nil, turning, nil, nil, r.scroll)
	save := control.NewPress(r.asks.Keys, theme.Word("paper.save"), func() { r.write(false) })
	open := control.NewFilled(r.asks.Keys, theme.Word("paper.open"), func() { r.write(true) })
	closes := control.NewPress(r.asks.Keys, theme.Word("app.close"), r.asks.Close)
	where := container.NewBorder(nil, nil, nil, container.NewCenter(r.folder),
		container.NewPadded(container.NewVBox(layout.NewSpacer(), r.writes, layout.NewSpacer())))
	doing := container.NewBorder(nil, nil, closes, container.NewHBox(save, open), where)
	return container.NewBorder(nil, container.NewVBox(r.told, doing), left, nil, container.NewPadded(right))
}

// Object is what is shown of it.
func (r *Room) Object() fyne.CanvasObject { return r.object }

// First is what has the keys first.
func (r *Room) First() fyne.Focusable { return r.which }

// Told is what is wrong with what was chosen; Page which page is shown of how many, from one, and nothing before one is.
func (r *Room) Told() string         { return r.told.Text }
func (r *Room) Page() (page, of int) { return r.shown + 1, r.pages }

// Key turns pages and closes; it tells whether a key did anything.
func (r *Room) Key(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyEscape:
		r.asks.Close()
	case fyne.KeyPageDown:
		r.turn(1)
	case fyne.KeyPageUp:
		r.turn(-1)
	default:
		return false
	}
	return true
}

// kinds are the sheets that all of them are: a quote with prices alone.
func (r *Room) kinds() []sheet.Kind {
	if r.asked.Prices.Priced() {
		return sheet.AllKinds()
	}
	return sheet.Kinds()
}

// offered are the sheets to choose from; a quote without prices says what it lacks.
func offered() []control.Option {
	options := []control.Option{{ID: all, Text: theme.Word("paper.all")}}
	for _, k := range sheet.AllKinds() {
		options = append(options, control.Option{ID: string(k), Text: theme.Word(k.Name())})
	}
	return options
}

// Choose looks at a sheet, by its kind; of all of them at the fitter's.
func (r *Room) Choose(id string) {
	r.which.Set(offered(), id)
	if r.asked.Kind = sheet.Kind(id); id == all {
		r.asked.Kind = sheet.Fitter
	}
	r.shown = 0
	r.scroll.ScrollTo(0)
	r.tellWhere()
	r.draw()
}

// Into has sheets written into a folder.
func (r *Room) Into(folder string) {
	r.into = folder
	r.tellWhere()
}

// path is what the files of sheets are named after.
func (r *Room) path() string {
	return filepath.Join(r.into, store.SafeName(r.asks.Result.Settled.Name, theme.Word("sheet.save")))
}

// Writes is what is told of what is written, and where.
func (r *Room) Writes() string { return r.writes.Text }

// tellWhere tells what is written, and where.
func (r *Room) tellWhere() {
	folder := message.Name("folder", store.Plain(r.into))
	if r.which.Chosen() == all {
		r.writes.SetText(theme.Word("paper.writes-all", folder))
		return
	}
	file := filepath.Base(r.asked.Kind.File(r.path()))
	r.writes.SetText(theme.Word("paper.writes", folder, message.Name("file", store.Plain(file))))
}

// turn goes so many pages on, as far as there are any.
func (r *Room) turn(by int) {
	if to := min(max(0, r.shown+by), r.pages-1); to != r.shown && to >= 0 {
		r.shown = to
		r.scroll.ScrollTo(0)
		r.draw()
	}
}

// TakePrices reads a file of prices; none where the path is empty. Bad rows are told and the rest is taken; of a file that cannot be read
// the prices from before stay.
func (r *Room) TakePrices(path string) {
	r.readPrices(path)
	r.draw()
}

// readPrices reads a file of prices, without showing what comes of it.
func (r *Room) readPrices(path string) {
	r.wrong[wrongPrices] = ""
	var list price.List
	var bad []price.Bad
	var err error
	if path != "" {
		list, bad, err = sheet.ReadPrices(path)
	}
	if err != nil {
		r.wrong[wrongPrices] = theme.Sentence(message.OfError(err), r.asks.Result.Settled.Units)
	} else {
		r.list = list
		r.asks.Kept.SetString(pricesKey, path)
		r.prices.Set(named(path), false)
		r.wrong[wrongPrices] = toldBad(bad)
	}
	r.noPrices.Set(r.noPrices.Text, len(r.list.Rows) == 0 && r.asks.Kept.String(pricesKey) == "")
	r.takeWork(r.work.Text)
}

// toldBad names the rows that cannot be used: the first few of them.
func toldBad(bad []price.Bad) string {
	const most = 4
	var out []string
	for i, x := range bad {
		if i == most {
			out = append(out, theme.Word("paper.more-bad", message.N("n", len(bad)-most)))
			break
		}
		out = append(out, theme.Word("price.line", message.No("line", x.Line), message.In("why", x.Why)))
	}
	return strings.Join(out, "\n")
}

// takeWork takes work as it is typed, beside the prices of the file.
func (r *Room) takeWork(text string) {
	rows, bad := price.ParseWork(text)
	r.wrong[wrongWork] = toldBad(bad)
	if last := r.asks.Kept.String(workKey); text == "" && last != "" {
		r.lastWork.Show()
	} else {
		r.lastWork.Hide()
	}
	usual := r.list
	usual.Currency = cmp.Or(strings.TrimSpace(r.currency.Text), usual.Currency)
	usual = usual.In(r.region())
	r.asked.Prices = price.List{Currency: usual.Currency, Tax: r.taxed(usual.Tax), Rows: slices.Concat(usual.Rows, rows)}
	r.currency.SetPlaceHolder(cmp.Or(r.list.In(r.region()).Currency, theme.Word("paper.currency-none")))
	if r.noTax.Hide(); usual.Tax == 0 && strings.TrimSpace(r.tax.Text) == "" {
		r.noTax.Show()
	}
	if r.costs.Enable(); !r.asked.Prices.Priced() {
		r.costs.Disable()
	}
}

// region is the one that the job is built in.
func (r *Room) region() string { return r.asks.Result.Stated.Region }

// KeptFor has what was kept of a currency and a tax before they were those of a country be those of one.
func KeptFor(region string, values map[string]any) {
	for _, key := range []string{currencyKey, taxKey} {
		if v, ok := values[key]; ok {
			delete(values, key)
			values[key+"-"+price.Country(region)] = v
		}
	}
}

// ofCountry is the key of what is kept for jobs of the country that the job is built in.
func (r *Room) ofCountry(key string) string { return key + "-" + price.Country(r.region()) }

// taxed is the tax as it is typed, or the usual one where nothing is or what is typed is none, which is told.
func (r *Room) taxed(usual float64) float64 {
	typed, why := price.TaxOf(r.tax.Text)
	r.wrong[wrongTax] = ""
	if !why.IsZero() {
		r.wrong[wrongTax] = theme.Sentence(why, r.asks.Result.Settled.Units)
	}
	r.tax.SetPlaceHolder(theme.Word("paper.tax-example"))
	if usual > 0 {
		const perHundred = 100
		r.tax.SetPlaceHolder(strconv.FormatFloat(perHundred*usual, 'g', 4, 64))
	}
	if strings.TrimSpace(r.tax.Text) == "" || !why.IsZero() {
		return usual
	}
	return typed
}

// TakeLogo reads a logo; none where the path is empty. What is no picture is told, and the logo from before stays.
func (r *Room) TakeLogo(path string) {
	r.readLogo(path)
	r.draw()
}

// readLogo reads a logo, without showing it.
func (r *Room) readLogo(path string) {
	r.wrong[wrongLogo] = ""
	var logo image.Image
	var err error
	if path != "" {
		logo, err = sheet.ReadLogo(path)
	}
	if err != nil {
		r.wrong[wrongLogo] = theme.Sentence(message.OfError(err), r.asks.Result.Settled.Units)
	} else {
		r.asked.Logo = logo
		r.asks.Kept.SetString(logoKey, path)
		r.logo.Set(named(path), false)
	}
	r.noLogo.Set(r.noLogo.Text, r.asked.Logo == nil)
}

// named is what a button says of the file that is chosen by it.
func named(path string) string {
	if path == "" {
		return theme.Word("paper.choose")
	}
	return store.Plain(filepath.Base(path))
}

// write writes what is chosen.
func (r *Room) write(open bool) {
	for _, e := range []*control.Entry{r.customer, r.by, r.currency, r.tax, r.work} {
		e.OnLeave()
	}
	if r.which.Chosen() == string(sheet.Quote) && !r.asked.Prices.Priced() {
		r.say(theme.Word(sheet.NoPricesYet))
		return
	}
	priced := r.which.Chosen() == string(sheet.Quote) || r.which.Chosen() == all || r.asked.Kind == sheet.Customer && r.asked.Costs
	if priced && r.wrong[wrongWork]+r.wrong[wrongTax] != "" {
		r.tell() // a sum that lacks what was meant is not given to a customer
		return
	}
	kinds := []sheet.Kind{r.asked.Kind}
	if r.which.Chosen() == all {
		kinds = r.kinds()
	}
	r.asks.Write(r.path(), kinds, r.asked, open)
}

// draw lays the sheet out and draws the page that is looked at, elsewhere; what comes in the meantime is drawn after it.
func (r *Room) draw() {
	r.tell()
	if r.drawing {
		r.again = true
		return
	}
	r.drawing, r.again = true, false
	a, q, page, wide := r.asks, r.asked, r.shown, r.page.pixels()
	if q.Kind == sheet.Customer && q.Picture == nil {
		r.drawDraft()
		q.Picture, q.Draft = r.draft, true
	}
	var img *image.RGBA
	pages := 0
	var err error
	a.Guard.Run(PartPreview, func() { img, page, pages, err = drawn(a, q, page, wide) }, func(sound bool) {
		a.OnWindow(func() {
			r.drawing = false
			switch {
			case !sound, r.again: // which has been told, or is looked at no more
			case err != nil:
				r.say(theme.Sentence(message.OfError(err), a.Result.Settled.Units))
			default:
				r.shown, r.pages = page, pages
				r.page.show(img)
				r.at.SetText(theme.Word("paper.page", message.No("n", page+1), message.No("of", pages)))
				r.back.Set(r.back.Text, page == 0)
				r.on.Set(r.on.Text, page == pages-1)
			}
			if r.again {
				r.draw()
			}
		})
	})
}

// drawDraft asks for the quick picture, once, and shows it when it is there.
func (r *Room) drawDraft() {
	if r.drafting {
		return
	}
	r.drafting = true
	r.asks.Draft(func(img image.Image) {
		if r.draft = img; r.asked.Kind == sheet.Customer {
			r.draw()
		}
	})
}

// tell says what is wrong with what was chosen.
func (r *Room) tell() {
	var out []string
	for _, s := range r.wrong {
		if s != "" {
			out = append(out, s)
		}
	}
	r.say(strings.Join(out, "\n"))
}

// say tells something over the buttons, where it is seen wherever the controls are; nothing takes no room.
func (r *Room) say(text string) {
	if text == r.told.Text && r.told.Visible() == (text != "") {
		return
	}
	if r.told.SetText(text); text == "" {
		r.told.Hide()
	} else {
		r.told.Show()
	}
	r.object.Refresh() // makes room for it
}

// leftWide is how wide the controls are, in units; barRoom what is left free for a bar beside them.
const (
	leftWide = 300
	barRoom  = 14
)

// atLeast is a layout so wide and as high as there is room.
type atLeast struct{ wide float32 }

// MinSize is the width alone.
func (a atLeast) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(theme.Of(o[0]).Unit(a.wide), 0)
}

// Layout fills the place.
func (a atLeast) Layout(o []fyne.CanvasObject, s fyne.Size) { o[0].Resize(s) }
