package main

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"underfall/assets"
)

func notice(of, version string, texts ...string) assets.Notice {
	n := assets.Notice{Of: of, Version: version}
	for i := 0; i < len(texts); i += 2 {
		n.Texts = append(n.Texts, assets.NoticeText{Source: texts[i], Text: texts[i+1]})
	}
	return n
}

func TestDifferences(t *testing.T) {
	linked := []assets.Notice{
		notice("a", "v1", "LICENSE", "one"),
		notice("Some Sans, font in a", "v1", "OFL.txt", "font"),
		notice(goName, "", goLicence, "go", "comment in src/x.go", "here"),
	}
	for name, c := range map[string]struct {
		shipped []assets.Notice
		says    string // empty for nothing
	}{
		"same":               {linked, ""},
		"module missing":     {linked[1:], "a v1 is in the program and has no notice"},
		"font missing":       {slices.Delete(slices.Clone(linked), 1, 2), "Some Sans, font in a v1 is in the program and has no notice"},
		"other version":      {append([]assets.Notice{notice("a", "v0", "LICENSE", "one")}, linked[1:]...), "a is in the program as v1, the notice is of v0"},
		"stale":              {append([]assets.Notice{notice("b", "v1", "LICENSE", "b")}, linked...), "b v1 has a notice and is not in the program"},
		"twice":              {append([]assets.Notice{notice("a", "v0", "LICENSE", "one")}, linked...), "a is there as v0 and as v1"},
		"other text":         {append([]assets.Notice{notice("a", "v1", "LICENSE", "two")}, linked[1:]...), "the text of LICENSE is not in the notices"},
		"text too many":      {append([]assets.Notice{notice("a", "v1", "LICENSE", "one", "OLD", "old")}, linked[1:]...), "hold a text of OLD that is not there"},
		"other Go compiler":  {append(slices.Clone(linked[:2]), notice(goName, "", goLicence, "go", "comment in src/y.go", "there")), ""},
		"other Go licence":   {append(slices.Clone(linked[:2]), notice(goName, "", goLicence, "stop")), "the text of LICENSE is not in the notices"},
		"no notice of Go":    {linked[:2], goName},
		"nothing is shipped": {nil, "a v1 is in the program"},
	} {
		got := strings.Join(differences(c.shipped, linked), "\n")
		if (c.says == "") != (got == "") || !strings.Contains(got, c.says) {
			t.Errorf("%s: %q, want %q", name, got, c.says)
		}
	}
}

// write makes files in a folder, by their paths.
func write(t *testing.T, folder string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		path := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

const someLicence = "Copyright (c) 2001 A. Maker\n\nPermission is hereby granted to all.\n\nNo warranty."

// Licences are found in the module's folder, in folders of licences, and on
// the way down to what is compiled, C that is included too; not beside tests.
func TestPartTexts(t *testing.T) {
	folder := t.TempDir()
	write(t, folder, map[string]string{
		"LICENSE":                    someLicence,
		"licence.go":                 "package p",
		"THIRD_PARTY_LICENSES/x/One": "one",
		"p/p.go":                     "package p",
		"p/COPYING-reader":           "reader",
		"p/testdata/LICENSE":         "test",
		"other/LICENSE":              "not linked",
		"c/c.go":                     "package c\n\n/*\n#include \"../lib/src/a.c\"\n#include <stdio.h>\n*/\nimport \"C\"\n",
		"lib/LICENSE.md":             "lib",
		"lib/src/a.c":                "  # include <b.h>\nint a;\n",
		"lib/include/b.h":            "/*\n** Copyright (c) 1999 B. Header\n**\n** Redistribution and use are allowed\n** with this notice.\n*/\nint b;\n",
		"lib/include/unused.h":       "/* Copyright (c) 1998 Nobody\n\nPermission to use it is none. */\n",
	})
	p := part{name: "m", version: "v1", folder: folder, packages: []linkedPackage{
		{ImportPath: "m/p", Dir: filepath.Join(folder, "p"), GoFiles: []string{"p.go"}},
		{ImportPath: "m/c", Dir: filepath.Join(folder, "c"), CgoFiles: []string{"c.go"}, CgoCFLAGS: []string{"-DX", "-I" + filepath.Join(folder, "lib", "include")}},
	}}
	files, err := p.sources()
	if err != nil {
		t.Fatal(err)
	}
	texts, err := p.licences(files)
	if err != nil {
		t.Fatal(err)
	}
	more, err := commentNotices(folder, files, texts)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, x := range append(texts, more...) {
		got[x.Source] = x.Text
	}
	want := map[string]string{
		"LICENSE": someLicence, "THIRD_PARTY_LICENSES/x/One": "one", "p/COPYING-reader": "reader", "lib/LICENSE.md": "lib",
		"comment in lib/include/b.h": "Copyright (c) 1999 B. Header\n\nRedistribution and use are allowed\nwith this notice.",
	}
	if len(got) != len(want) {
		t.Errorf("texts of %v, want %d", slices.Sorted(maps.Keys(got)), len(want))
	}
	for source, text := range want {
		if got[source] != text {
			t.Errorf("%s: %q, want %q", source, got[source], text)
		}
	}
}

func TestCollectRefuses(t *testing.T) {
	folder := t.TempDir()
	write(t, folder, map[string]string{"bare/a.go": "package a", "fonts/LICENSE": someLicence, "fonts/a.go": "package a",
		"fonts/Unknown.ttf": "x", "fonts/Inter-Regular.ttf": "x", "broken/LICENSE": someLicence, "broken/a.go": "package a",
		"broken/Inter-Regular.ttf": "not a font", "broken/LICENSE_Inter.txt": "font"})
	module := func(name string, fonts ...string) linkedPackage {
		dir := filepath.Join(folder, name)
		return linkedPackage{ImportPath: name, Dir: dir, Module: &linkedModule{Path: name, Version: "v1", Dir: dir}, GoFiles: []string{"a.go"}, EmbedFiles: fonts}
	}
	ours := module("bare", "Inter-Regular.ttf")
	ours.Module.Main = true
	for name, c := range map[string]struct {
		p    linkedPackage
		says string
	}{
		"no licence":             {module("bare"), "bare v1 has no licence file"},
		"font nobody knows":      {module("fonts", "Unknown.ttf"), "the font Unknown.ttf: name its licence"},
		"font without a licence": {module("fonts", "Inter-Regular.ttf"), "reading the licence of the font Inter-Regular.ttf"},
		"font that is none":      {module("broken", "Inter-Regular.ttf"), "reading the font Inter-Regular.ttf"},
		"font of our own":        {ours, "has no licence file"},
		"file that is gone":      {linkedPackage{ImportPath: "x", Dir: folder, Module: &linkedModule{Path: "x", Dir: filepath.Join(folder, "fonts")}, CFiles: []string{"gone.c"}}, "reading a source"},
		"no module":              {linkedPackage{ImportPath: "x", Dir: folder}, "belongs to no module"},
		"supplement for nothing": {module("fonts"), "take the supplement for JTS Topology Suite out"},
	} {
		if _, err := collect([]linkedPackage{c.p}); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", name, err, c.says)
		}
	}
}

func TestLicenceIn(t *testing.T) {
	for name, c := range map[string]struct{ comment, holders, terms string }{
		"no licence":      {" Copyright 2009 The Go Authors. All rights reserved.\n Use of this source code is governed by a BSD-style\n license that can be found in the LICENSE file.", "", ""},
		"public domain":   {" This is in the public domain.\n\n NO WARRANTY, permission to use it.", "", ""},
		"plain":           {" Copyright (c) 2001 A\n Copyright (c) 2002 B\n\n Permission is hereby granted.\n\n No warranty.", "Copyright (c) 2001 A\nCopyright (c) 2002 B", "Permission is hereby granted.\n\nNo warranty."},
		"title and rules": {"====\n Thing 3\n----\n Copyright (C) 1993 by A\n\n Permission to use it\n is freely granted.\n====\n\n thing(x) is a thing\n of x", "Copyright (C) 1993 by A", "Permission to use it\nis freely granted."},
		"words between":   {" Title\n Copyright © 1998 A\n By A himself.\n\n   Redistributions of source are allowed.", "Copyright © 1998 A", "By A himself.\n\nRedistributions of source are allowed."},
		"empty":           {"", "", ""},
	} {
		holders, terms := licenceIn(c.comment)
		if got := strings.Join(holders, "\n"); got != c.holders || terms != c.terms {
			t.Errorf("%s: %q, %q, want %q, %q", name, got, terms, c.holders, c.terms)
		}
	}
}

func TestComments(t *testing.T) {
	got := comments("// one\n// two\nx := 1 // not alone\n\t// three\n/* four */\n/*\n * five\n ** six\n */\ny\n/* seven\r\neight")
	want := []string{" one\n two", " three", " four", "\n five\n six\n", " seven\neight"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// Comments that differ in the holder alone become one; what a licence file
// says already is left out.
func TestCommentNotices(t *testing.T) {
	folder := t.TempDir()
	terms := "//\n// Permission is hereby granted to B's\n// friends.\n"
	write(t, folder, map[string]string{"a.c": "// Copyright (c) 2001 B\n" + terms, "b.c": "// Copyright (c) 2002 C\n" + terms, "c.c": "// Copyright (c) 2001 B\n" + terms,
		"d.c": "// " + strings.ReplaceAll(someLicence, "\n", "\n// ")})
	var files []string
	for _, f := range []string{"a.c", "b.c", "c.c", "d.c"} {
		files = append(files, filepath.Join(folder, f))
	}
	got, err := commentNotices(folder, files, []assets.NoticeText{{Source: "LICENSE", Text: someLicence}})
	want := []assets.NoticeText{{Source: "comment in a.c and 2 more", Text: "Copyright (c) 2001 B\nCopyright (c) 2002 C\n\nPermission is hereby granted to B's\nfriends."}}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %q, want %q", err, got, want)
	}
}
