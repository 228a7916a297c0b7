package unit

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestParseList(t *testing.T) {
	for _, c := range []struct {
		text string
		s    System
		want []float64
	}{
		{"", Metric, nil}, {" \n ", Metric, nil}, {";", Metric, nil},
		{"300, 400, 2.5, 1", Metric, []float64{300, 400, 2.5, 1}},
		{"12,5; 30", Metric, []float64{12.5, 30}},
		{"12,5, 30,5", Metric, []float64{12.5, 30.5}},
		{"12,5;30,5", Metric, []float64{12.5, 30.5}},
		{"12,5\t30", Metric, []float64{12.5, 30}},
		{"12,5\n30\n\n", Metric, []float64{12.5, 30}},
		{"1;2\r\n3\t4;", Metric, []float64{1, 2, 3, 4}},
		{"12,5; 30.5", Metric, []float64{12.5, 30.5}},
		{"12,5; 1.200", Metric, []float64{12.5, 1200}}, // the comma is the decimal mark here
		{"12.5; 1,200", Metric, []float64{12.5, 1200}},
		{"12.5\t1,200", Metric, []float64{12.5, 1200}},
		{"1 200; 2 400", Metric, []float64{1200, 2400}},
		{"12 mm,30 mm", Metric, []float64{12, 30}},
		{`3' 2", 4 1/2"`, Metric, []float64{965.2, 114.3}},
		{`3 1/2,4 1/2`, Imperial, []float64{88.9, 114.3}},
		{"=1200-26, 2 m 30", Metric, []float64{1174, 2300}},
		{"300,", Metric, []float64{300}},
		{"1 ,5", Metric, []float64{1, 5}}, {"1, 5", Metric, []float64{1, 5}},
		{"1, 2, 3, 4, 5, 6, 7, 8, 9,1", Metric, []float64{1, 2, 3, 4, 5, 6, 7, 8, 9.1}},
	} {
		got, err := ParseList(c.text, Length, c.s)
		if err != nil || len(got) != len(c.want) {
			t.Errorf("ParseList(%q, %s) = %v, %v; want %v", c.text, c.s, got, err, c.want)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("ParseList(%q, %s) = %v; want %v", c.text, c.s, got, c.want)
			}
		}
	}
}

// The count of columns and their ranges decide where they can.
func TestParseColumns(t *testing.T) {
	point := []Column{Any(Length), Any(Length)}
	level := append(point, Column{Length, -500, 500}, Column{Length, 0, 100})
	curve := []Column{{Length, 0, 500}, {Flow, 0, 20}}
	for _, c := range []struct {
		text    string
		columns []Column
		least   int
		want    string
	}{
		{"0,2400", point, 2, "[0 2400]"},
		{"300,400", point, 2, "[300 400]"},
		{"12,5", point, 2, "[12 5]"},
		{"12,5; 30", point, 2, "[12.5 30]"},
		{"1,200; 300", append([]Column{{Length, 100, 3000}}, point[1:]...), 2, "[1200 300]"},
		{"300,5,400", []Column{{Length, 100, 3000}, {Length, 100, 3000}}, 2, "[300.5 400]"},
		{"300,400,2.5,1", level, 3, "[300 400 2.5 1]"},
		{"300, 400, 2,5", level, 3, "[300 400 2.5]"},
		{"300,400,2,5", level, 3, "[300 400 2 5]"},
		{"300; 400; 1,200; 1", level, 3, "[300 400 1.2 1]"},
		{"10, 24", curve, 2, "[10 0.4]"},
		{"10,24", curve, 2, "[10 0.4]"},
		{"12,5; 24 l/min", curve, 2, "[12.5 0.4]"},
		{`1/2", 0,4 l/s`, curve, 2, "[12.7 0.4]"},
	} {
		if got, err := ParseColumns(c.text, c.columns, c.least, Metric); err != nil || fmt.Sprint(got) != c.want {
			t.Errorf("ParseColumns(%q) = %v, %v; want %s", c.text, got, err, c.want)
		}
	}
	for text, says := range map[string]string{
		"300":            "reading.needs-between{least: 3, most: 4, is: 1}",
		"1; 2; 3; 4; 5":  "reading.needs-at-most{most: 4, is: 5}",
		"300, , 2.5":     `reading.missing-before{typed: "2.5"}`,
		", 300, 400, 3":  `reading.missing-before{typed: "300"}`,
		"300, x, 3":      `reading.in-list{n: 2, typed: "x", why: reading.example{wrong: reading.no-number{typed: "x"}, examples: [own{text: "120"}`,
		"300; 400; 700":  `reading.in-list{n: 3, typed: "700", why: reading.outside{is: [own{text: "700 mm"}], least: -500 mm, greatest: 500 mm}}`,
		"300, 400, 2.5:": `reading.in-list{n: 3, typed: "2.5:"`,
	} {
		v, err := ParseColumns(text, level, 3, Metric)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("ParseColumns(%q) = %v, %v; want it to say %q", text, v, err, says)
		}
	}
	if _, err := ParseColumns("3", point, 2, Metric); err == nil || !strings.Contains(err.Error(), "reading.needs{needs: 2, is: 1}") {
		t.Errorf("one number for two columns: %v", err)
	}
}

func TestListsAsk(t *testing.T) {
	for text, want := range map[string]string{
		"0,2400":      "0 mm; 2400 mm|0.24 mm",
		"12,9":        "12 mm; 9 mm|12.9 mm",
		"1,200; 300":  "1200 mm; 300 mm|1.2 mm; 300 mm",
		"1,200, 300":  "1 mm; 200 mm; 300 mm|1200 mm; 300 mm|1.2 mm; 300 mm",
		"0,2400; 300": "0 mm; 2400 mm; 300 mm|0.24 mm; 300 mm",
		"1/2, 3":      `1/2"; 3 mm|0.5 mm; 3 mm`,
	} {
		_, err := ParseList(text, Length, Metric)
		var a *Ambiguous
		if !errors.As(err, &a) {
			t.Errorf("ParseList(%q): %v, want to be asked", text, err)
			continue
		}
		var got []string
		for _, r := range a.Readings {
			got = append(got, r.Text)
			if v, err := ParseList(r.Text, Length, Metric); err != nil || v[0] != r.Value {
				t.Errorf("the reading %q of %q reads as %v, %v", r.Text, text, v, err)
			}
		}
		if strings.Join(got, "|") != want {
			t.Errorf("ParseList(%q) asks %q, want %s", text, got, want)
		}
	}
	_, err := ParseList("12,9", Flow, Metric)
	if err == nil || err.Error() != `reading.ambiguous{typed: "12,9", readings: [reading.quoted{text: "12 l/min; 9 l/min"}, reading.quoted{text: "12.9 l/min"}]}` {
		t.Errorf("asks: %v", err)
	}
}

// A list that is tried in every way, and fails in each.
func BenchmarkParseListInVain(b *testing.B) {
	text := "1,1, 1,1, 1,1, 1,1, 1,1, 1,1" + strings.Repeat(", =3 1/2+4*(2-1)", 80) + ", x"
	for b.Loop() {
		if _, err := ParseList(text, Length, Imperial); err == nil {
			b.Fatal("it is read")
		}
	}
}
