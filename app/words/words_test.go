package words_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// catalogues for the tests: British English, an American one that changes a word, a
// German one, and one that is broken.
func catalogues() fstest.MapFS {
	return fstest.MapFS{
		"en-GB/all.json": {Data: []byte(`{
			"list.and": "{{.first}} and {{.rest}}", "list.or": "{{.first}} or {{.rest}}", "list.comma": "{{.first}}, {{.rest}}",
			"stop": "STOP", "value.level": "level",
			"board.thin": "The board is {{.by}} too thin.",
			"colour": "Colour of {{.what}}",
			"problems": {"one": "{{.n}} problem", "other": "{{.n}} problems"},
			"asks": "It asks for {{.more}}"
		}`)},
		"en-US/all.json": {Data: []byte(`{"colour": "Color of {{.what}}"}`)},
		"de/all.json": {Data: []byte(`{
			"value.level": "eben",
			"board.thin": "Die Platte ist {{.by}} zu dünn.",
			"problems": {"one": "{{.n}} Fehler", "other": "{{.n}} Fehler"}
		}`)},
		"fr/all.json": {Data: []byte(`{"board.thin": "La plaque`)},
	}
}

func shelf(t *testing.T) *words.Shelf {
	t.Helper()
	s, err := words.Load(catalogues())
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSay(t *testing.T) {
	s := shelf(t)
	thin := message.Of("board.thin", message.Layer("by", 3.26))
	grout := message.Of("colour", message.In("what", message.Of("stop")))
	for _, c := range []struct {
		language string
		units    unit.System
		say      message.Message
		want     string
	}{
		{words.British, unit.Metric, message.Message{}, ""},
		{words.British, unit.Metric, message.Of("stop"), "STOP"},
		{words.British, unit.Metric, thin, "The board is 3.5 mm too thin."},
		{words.British, unit.Imperial, thin, `The board is 1/8" too thin.`},
		{"de", unit.Metric, thin, "Die Platte ist 3,5 mm zu dünn."},
		{"de", unit.Metric, message.Of("stop"), "STOP"}, // no text of its own
		{words.American, unit.Imperial, grout, "Color of STOP"},
		{words.British, unit.Metric, grout, "Colour of STOP"},
		{words.MadeUp, unit.Metric, message.Of("stop"), "[STOP··]"},
		{words.MadeUp, unit.Metric, grout, "[Colour of [STOP··]······]"},
		{words.British, unit.Metric, message.Of("problems", message.N("n", 1)), "1 problem"},
		{words.British, unit.Metric, message.Of("problems", message.N("n", 0)), "0 problems"},
		{words.British, unit.Metric, message.Of("problems", message.N("n", 21)), "21 problems"},
		{"de", unit.Metric, message.Of("problems", message.N("n", 1)), "1 Fehler"},
		{"xx", unit.Metric, message.Of("stop"), "STOP"},
	} {
		if got := s.Book(c.language, c.units, nil).Say(c.say); got != c.want {
			t.Errorf("%s, %s: %v is “%s”, want “%s”", c.language, c.units, c.say, got, c.want)
		}
	}
}

// Every kind of value, by hand: in metric and imperial units and with a comma.
func TestValues(t *testing.T) {
	s := shelf(t)
	tenth := func(mm float64) message.Length { return message.Length{MM: mm, Round: message.Tenth} }
	stop := message.Of("stop")
	for _, c := range []struct {
		value                   message.Value
		metric, imperial, comma string
	}{
		{message.Length{MM: 72.4}, "72 mm", `2 7/8"`, "72 mm"},
		{message.Length{MM: 72.3, Round: message.Half}, "72.5 mm", `2 7/8"`, "72,5 mm"},
		{message.Length{MM: 72.34, Round: message.Tenth}, "72.3 mm", `2 7/8"`, "72,3 mm"},
		{message.Length{MM: -0.4}, "0 mm", `0"`, "0 mm"},
		// 55/25.4·16 are 34.6 sixteenths, 50.8 two inches: neither the most nor the least may be told past itself.
		{message.Length{MM: 55, Bound: message.AtMost}, "55 mm", `2 1/8"`, "55 mm"},
		{message.Length{MM: 55, Bound: message.AtLeast}, "55 mm", `2 3/16"`, "55 mm"},
		{message.Length{MM: 50.8, Bound: message.AtMost}, "50 mm", `2"`, "50 mm"},
		{message.Length{MM: 50.8, Bound: message.AtLeast}, "51 mm", `2"`, "51 mm"},
		// 13614/25.4 are 535.98, 12·44 + 8; 1999.4/25.4 are 78.72, 2000/25.4 78.74.
		{message.Length{MM: 13614, Round: message.Stock}, "13.6 m", `44' 8"`, "13,6 m"},
		{message.Length{MM: 1999.4, Round: message.Stock}, "1999 mm", `6' 6 11/16"`, "1999 mm"},
		{message.Length{MM: 2000, Round: message.Stock}, "2 m", `6' 7"`, "2 m"},
		{message.Level{MM: 12.34}, "+12 mm", `+1/2"`, "+12 mm"},
		{message.Level{MM: -12}, "-12 mm", `-1/2"`, "-12 mm"},
		{message.Fall{Slope: 0.00004}, "level", "level", "eben"},
		// 580644/25.4² are 900 in², 6.25 ft²; 92903.04 one ft²; 2400 × 1900 49.084 ft².
		{message.Area{MM2: 580644}, "0.58 m²", "6.25 ft²", "0,58 m²"},
		{message.Area{MM2: 92000}, "0.09 m²", "0.99 ft²", "0,09 m²"},
		{message.Area{MM2: 48387}, "0.05 m²", "0.52 ft²", "0,05 m²"}, // 75 in²
		{message.Area{MM2: 8387}, "0.01 m²", "13 in²", "0,01 m²"},
		{message.Area{MM2: 92903.04}, "0.09 m²", "1 ft²", "0,09 m²"},
		{message.Area{MM2: 4560000}, "4.56 m²", "49.1 ft²", "4,56 m²"},
		{message.Apart{Value: tenth(49.96), From: tenth(50)}, "49.96 mm", `1.967"`, "49,96 mm"},
		{message.Apart{Value: tenth(49.4), From: tenth(50)}, "49.4 mm", `1 15/16"`, "49,4 mm"},
		{message.Apart{Value: message.Share(0.84), From: message.Share(0.84003)}, "84 %", "84 %", "84 %"},
		{message.Apart{Value: message.Share(0.84003), From: message.Share(0.84)}, "84.003 %", "84.003 %", "84,003 %"},
		{message.Apart{Value: message.Number(2), From: message.Number(2)}, "2", "2", "2"},
		{message.Fall{Slope: 0.02}, "1:50 (20 mm/m)", "1/4 in/ft (2 %)", "1:50 (20 mm/m)"},
		{message.Flow{LPS: 0.15}, "9 l/min", "2.38 gpm", "9 l/min"},
		{message.Flow{LPS: 0.8}, "48 l/min", "12.7 gpm", "48 l/min"}, // 12.68
		{message.Speed{MPS: 0.75}, "0.75 m/s", "2.5 ft/s", "0,75 m/s"},
		{message.Volume{Litres: 37.85}, "37.9 l", "10 gal", "37,9 l"},
		{message.Load{KNM2: 1.5}, "1.5 kN/m²", "31 lb/ft²", "1,5 kN/m²"},
		// 22.6796 kg are 50 lb; 299 ml are 10.11 fl oz; 1.4 kg/l are 11.684 lb/gal; 0.15 l/m² are 5.0721 fl oz on 10.7639 ft².
		{message.Mass{KG: 22.6796}, "22.7 kg", "50 lb", "22,7 kg"},
		{message.Liquid{Litres: 0.299}, "299 ml", "10.1 fl oz", "299 ml"},
		{message.Liquid{Litres: 5}, "5 l", "1.3 gal", "5 l"},
		{message.Yield{KGPerLitre: 1.4}, "1.4 kg/l", "11.7 lb/gal", "1,4 kg/l"},
		{message.Coverage{LitresPerM2: 0.15}, "0.15 l/m²", "0.47 fl oz/ft²", "0,15 l/m²"},
		{message.Minutes(1.5), "1.5 min", "1.5 min", "1,5 min"},
		{message.Degrees(22.5), "22.5°", "22.5°", "22,5°"},
		{message.Share(0.125), "12.5 %", "12.5 %", "12,5 %"},
		{message.Count(3), "3", "3", "3"},
		{message.Number(2), "2", "2", "2"},
		// DN 40 is NPS 1 1/2, DN 80 is NPS 3 (from memory of ASME B36.10); 110 is called so everywhere.
		{message.Size(40), "40 mm", `1 1/2"`, "40 mm"},
		{message.Size(80), "80 mm", `3"`, "80 mm"},
		{message.Size(110), "110 mm", "110 mm", "110 mm"},
		{message.Own("a.b"), "a.b", "a.b", "a.b"},
		{message.Said(stop), "STOP", "STOP", "STOP"},
		{message.List{}, "", "", ""},
		{message.List{Items: []message.Message{stop}}, "STOP", "STOP", "STOP"},
		{message.List{Items: []message.Message{stop, stop, stop}}, "STOP, STOP and STOP", "STOP, STOP and STOP", "STOP, STOP and STOP"},
		{message.List{Items: []message.Message{stop, stop}, Or: true}, "STOP or STOP", "STOP or STOP", "STOP or STOP"},
	} {
		for tag, want := range map[string]string{words.British: c.metric, "de": c.comma} {
			if got := s.Book(tag, unit.Metric, nil).Value(c.value); got != want {
				t.Errorf("%s: %v is “%s”, want “%s”", tag, c.value, got, want)
			}
		}
		if got := s.Book(words.British, unit.Metric, nil).In(unit.Imperial).Value(c.value); got != c.imperial {
			t.Errorf("in inches: %v is “%s”, want “%s”", c.value, got, c.imperial)
		}
	}
}

// What has no text, or whose text asks for more than there is, shows id and values
// and is told of.
func TestMissing(t *testing.T) {
	var missing []string
	b := shelf(t).Book("de", unit.Metric, func(m message.Message) { missing = append(missing, m.String()) })
	unknown := message.Of("no.such", message.MM("by", 3), message.Name("file", "job.json"))
	want := `no.such{by: 3 mm, file: "job.json"}`
	if got := b.Say(unknown); got != want {
		t.Errorf("“%s”, want “%s”", got, want)
	}
	if got := b.Say(message.Of("asks", message.MM("less", 3))); got != "asks{less: 3 mm}" {
		t.Errorf("“%s”", got)
	}
	if len(missing) != 2 || missing[0] != want {
		t.Errorf("told of %q", missing)
	}
	if b.Say(message.Of("stop")); len(missing) != 2 {
		t.Errorf("a text in another language counts as missing: %q", missing)
	}
}

// A broken catalogue is told of and its language falls back; without the British one
// nothing goes.
func TestBrokenCatalogues(t *testing.T) {
	s := shelf(t)
	if len(s.Broken) != 1 || !strings.Contains(s.Broken[0].Error(), "fr/all.json") {
		t.Errorf("broken: %v", s.Broken)
	}
	if f := s.Fault(); f.ID != "words.broken" || !strings.Contains(f.String(), "fr/all.json") {
		t.Errorf("told is %v", f)
	}
	whole := catalogues()
	delete(whole, "fr/all.json")
	if s, err := words.Load(whole); err != nil || !s.Fault().IsZero() {
		t.Errorf("of sound catalogues: %v, %v", err, s.Fault())
	}
	if got := s.Book("fr", unit.Metric, nil).Say(message.Of("stop")); got != "STOP" {
		t.Errorf("in place of French: “%s”", got)
	}
	files := catalogues()
	files["en-GB/all.json"] = files["fr/all.json"]
	if _, err := words.Load(files); err == nil || !strings.Contains(err.Error(), "en-GB") {
		t.Errorf("a broken British catalogue: %v", err)
	}
	files["en-GB/all.json"], files["en-GB/more.json"] = catalogues()["en-GB/all.json"], &fstest.MapFile{Data: []byte(`{"stop": "HALT"}`)}
	if _, err := words.Load(files); err == nil || !strings.Contains(err.Error(), "stop has a text already") {
		t.Errorf("two texts for one id: %v", err)
	}
	delete(files, "en-GB/more.json")
	delete(files, "en-GB/all.json")
	if _, err := words.Load(files); err == nil || !strings.Contains(err.Error(), "missing") {
		t.Errorf("no British catalogue: %v", err)
	}
}

// The catalogues that Underfall carries can all be read.
func TestCatalogues(t *testing.T) {
	s, err := words.Load(assets.Words())
	if err != nil || len(s.Broken) > 0 {
		t.Fatal(err, s)
	}
	british := map[message.ID]bool{}
	for _, id := range s.IDs(words.British) {
		british[id] = true
	}
	for _, id := range s.IDs(words.American) {
		if !british[id] {
			t.Errorf("American English has a text for %s, British has none", id)
		}
	}
}

func TestWanted(t *testing.T) {
	for _, c := range []struct {
		settings map[string]string
		want     string
	}{
		{nil, words.British},
		{map[string]string{"LANG": "en_US.UTF-8"}, words.American},
		{map[string]string{"LANG": "en_GB.UTF-8"}, words.British},
		{map[string]string{"LANG": "de_DE.UTF-8"}, words.British},
		{map[string]string{"LANG": "en_US.UTF-8", "LC_MESSAGES": "en_GB"}, words.British},
		{map[string]string{"LANG": "en_GB.UTF-8", "LC_ALL": "en_US"}, words.American},
		{map[string]string{"LANG": "C"}, words.British},
		{map[string]string{"LANG": "en_US", "UNDERFALL_LANGUAGE": "en-XA"}, words.MadeUp},
	} {
		if got := words.Wanted(func(name string) string { return c.settings[name] }); got != c.want {
			t.Errorf("%v asks for %s, want %s", c.settings, got, c.want)
		}
	}
}

// What stands outside the brackets, by hand.
func TestOutside(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "Save": "Save", "[Save··]": "", "[Tile [at the edge···]····]: 12 mm": ": 12 mm", "• [a] – [b]": "•  – ",
	} {
		if got := words.Outside(text); got != want {
			t.Errorf("of “%s”: “%s”, want “%s”", text, got, want)
		}
	}
}

// On a drawing, where the unit is clear once for all, numbers stand alone; inches keep their mark.
func TestBareNumbers(t *testing.T) {
	b := book(t).Bare()
	for _, c := range []struct {
		value        message.Value
		metric, inch string
	}{
		{message.Length{MM: 1400}, "1400", `55 1/8"`},
		{message.Level{MM: 113}, "+113", `+4 7/16"`},
		{message.Level{MM: -12}, "-12", `-1/2"`},
		{message.Fall{Slope: 0.02}, "1:50", ""},
		{message.Flow{LPS: 0.2}, "12 l/min", ""},
	} {
		if got := b.In(unit.Metric).Value(c.value); got != c.metric {
			t.Errorf("%v: “%s”, want “%s”", c.value, got, c.metric)
		}
		if got := b.In(unit.Imperial).Value(c.value); c.inch != "" && got != c.inch {
			t.Errorf("%v in inches: “%s”, want “%s”", c.value, got, c.inch)
		}
	}
}
