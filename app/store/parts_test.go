//go:build unix

package store

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/source"
)

func tileOf(id, called string, lengthMM float64) part.Tile {
	return part.Tile{About: part.About{ID: id, Called: called, Source: source.Source{Mark: source.Practice}}, ThicknessMM: 9, LengthMM: lengthMM, WidthMM: 300, JointMM: 3}
}

func tilesOf(tiles ...part.Tile) part.Shelf { return part.Shelf{Version: part.Version, Tiles: tiles} }

// shown are the tiles of a shelf by id, name and length.
func shown(s part.Shelf) (out []string) {
	for _, x := range s.Tiles {
		out = append(out, strings.TrimSpace(x.ID+" "+x.Called))
	}
	return out
}

// What is kept is there again; the newest comes first, and takes the place of what has
// its id. What is there already as it is, built in or not, is no change.
func TestOwnPartsAreKept(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "not", "there yet")
	known := tilesOf(tileOf("square", "", 300), tileOf("plank", "", 1200))
	if own, err := OwnParts(folder, known); err != nil || !reflect.DeepEqual(own, part.Shelf{Version: part.Version}) {
		t.Fatalf("%v, %+v", err, own)
	}
	for _, step := range []struct {
		more    part.Shelf
		changed int
		want    []string
	}{
		{tilesOf(tileOf("square", "", 300)), 0, nil}, // as it is built in
		{tilesOf(tileOf("blue", "Blue", 200), tileOf("red", "Red", 200)), 2, []string{"blue Blue", "red Red"}},
		{tilesOf(tileOf("red", "Red", 250), tileOf("blue", "Blue", 200)), 1, []string{"red Red", "blue Blue"}},
		{tilesOf(tileOf("square", "", 310)), 1, []string{"square", "red Red", "blue Blue"}}, // by the name it has built in
		{tilesOf(tileOf("square", "", 300)), 1, []string{"square", "red Red", "blue Blue"}}, // as it was built in
		{tilesOf(tileOf("square", "", 300)), 0, []string{"square", "red Red", "blue Blue"}},
	} {
		changed, err := KeepParts(folder, known, step.more)
		if err != nil || changed != step.changed {
			t.Fatalf("%v: %v, %d changed, want %d", shown(step.more), err, changed, step.changed)
		}
		own, err := OwnParts(folder, known)
		if err != nil || !slices.Equal(shown(own), step.want) {
			t.Fatalf("%v: %v, %q, want %q", shown(step.more), err, shown(own), step.want)
		}
		all := known.With(own)
		for _, x := range step.more.Tiles {
			if !reflect.DeepEqual(all.Find(part.KindTile, x.ID), part.Part(x)) {
				t.Fatalf("%s is not as it was put there", x.ID)
			}
		}
	}
	if got := names(t, folder); got != ownParts {
		t.Errorf("in the folder are %s", got)
	}
}

// Where the user's parts cannot be read they are left out, with a sentence; their file
// stays as it is, whatever is to be added.
func TestOwnPartsThatCannotBeRead(t *testing.T) {
	known := tilesOf(tileOf("square", "", 300))
	sound, err := tilesOf(tileOf("blue", "Blue", 200)).Marshal()
	if err != nil {
		t.Fatal(err)
	}
	for want, text := range map[string]string{
		"part.newer":       `{"version": 2, "lamps": []}`,
		"open.damaged{":    string(sound[:len(sound)-9]),
		"part.twice{":      strings.Replace(string(sound), `"tiles": [`, `"tiles": [{"id": "blue", "source": {"mark": "common-practice"}, "thicknessMM": 9, "toleranceMM": 0, "lengthMM": 9, "widthMM": 9, "jointMM": 0},`, 1),
		"part.unsound{":    strings.Replace(string(sound), "200", "2", 1),
		"part.nameless{":   strings.Replace(string(sound), `"called": "Blue",`, "", 1),
		"part.no-shelf":    `{}`,
		"part.too-large{m": string(sound) + strings.Repeat(" ", part.LargestShelf),
	} {
		folder := t.TempDir()
		path := put(t, filepath.Join(folder, ownParts), text, 0o644)
		own, err := OwnParts(folder, known)
		if err == nil || !strings.HasPrefix(message.OfError(err).String(), "store.own-parts{why: store.reading-parts{") || !strings.Contains(err.Error(), "why: "+want) {
			t.Errorf("%s: %v", want, err)
		}
		if !reflect.DeepEqual(own, part.Shelf{Version: part.Version}) {
			t.Errorf("%s: parts come with it", want)
		}
		if n, err := KeepParts(folder, known, tilesOf(tileOf("red", "Red", 100))); err == nil || n != 0 {
			t.Errorf("%s: %d are added, %v", want, n, err)
		}
		if content(t, path) != text || names(t, folder) != ownParts {
			t.Errorf("%s: the file is not what it was", want)
		}
	}
	folder := t.TempDir()
	pipe(t, filepath.Join(folder, ownParts))
	if _, err := OwnParts(folder, known); !errors.Is(err, ErrNotPlain) {
		t.Errorf("a pipe: %v", err)
	}
}

func TestPartsThatCannotBeKept(t *testing.T) {
	blue := tilesOf(tileOf("blue", "Blue", 200))
	if _, err := KeepParts("", part.Shelf{}, blue); err == nil || err.Error() != "store.no-own-folder" {
		t.Errorf("nowhere: %v", err)
	}
	if own, err := OwnParts("", part.Shelf{}); err != nil || len(own.Tiles) > 0 {
		t.Errorf("from nowhere: %v", err)
	}
	file := put(t, filepath.Join(t.TempDir(), "file"), "", 0o644)
	if _, err := KeepParts(file, part.Shelf{}, blue); err == nil || !strings.Contains(err.Error(), "store.no-folder") && !strings.Contains(err.Error(), "store.no-such-file") {
		t.Errorf("in a file: %v", err)
	}
	if _, err := KeepParts(t.TempDir(), part.Shelf{}, tilesOf(tileOf("blue", "", 200))); err == nil || err.Error() != `part.nameless{kind: part-kind.tile, id: "blue"}` {
		t.Errorf("without a name: %v", err)
	}
	folder := t.TempDir()
	put(t, filepath.Join(folder, ownParts), `{"version": 1}`, 0o444)
	if _, err := KeepParts(folder, part.Shelf{}, blue); !errors.Is(err, ErrReadOnly) {
		t.Errorf("a file that is read-only: %v", err)
	}
}

// Parts go to a file and come back as its ending says.
func TestPartsInFiles(t *testing.T) {
	folder := t.TempDir()
	s := tilesOf(tileOf("blue", "Blue", 200))
	for name, begins := range map[string]string{"a.json": "{", "b.csv": "kind,id", "c.CSV": "kind,id", "d.JSON": "{"} {
		path := filepath.Join(folder, name)
		if err := WriteParts(path, s); err != nil {
			t.Fatal(err)
		}
		if got := content(t, path); !strings.HasPrefix(got, begins) {
			t.Errorf("%s begins %.10q", name, got)
		}
		if back, err := ReadParts(path); err != nil || !reflect.DeepEqual(back, s) {
			t.Errorf("%s: %v, %+v", name, err, back)
		}
	}
	for _, name := range []string{"a", "a.txt", "a.json.old"} {
		if err := WriteParts(filepath.Join(folder, name), s); err == nil || !strings.HasPrefix(err.Error(), "store.parts-ending{") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := WriteParts(filepath.Join(folder, "no", "a.csv"), s); err == nil || !strings.HasPrefix(err.Error(), "store.writing-parts{") {
		t.Errorf("%v", err)
	}
	table := put(t, filepath.Join(folder, "table.json"), "kind,id,field,value\n", 0o644)
	if _, err := ReadParts(table); err == nil || !strings.Contains(err.Error(), "open.damaged") {
		t.Errorf("a table called JSON: %v", err)
	}
	large := put(t, filepath.Join(folder, "large.csv"), "", 0o644)
	if err := os.Truncate(large, part.LargestShelf+1); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadParts(large); err == nil || !strings.Contains(err.Error(), "part.too-large{") {
		t.Errorf("a large one: %v", err)
	}
	if _, err := ReadParts(filepath.Join(folder, "none.csv")); err == nil || !strings.Contains(err.Error(), "store.no-such-file") {
		t.Errorf("none: %v", err)
	}
}
