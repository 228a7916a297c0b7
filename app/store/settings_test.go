package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"underfall/app/store"
)

// What is kept stands in the folder, is there again and in another window, and what each of two windows keeps stays.
func TestSettingsStandInTheirFolder(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "ours")
	one, other := store.OpenSettings(folder, "", nil), store.OpenSettings(folder, "", nil)
	one.SetString("firm", "A. Example")
	other.SetBool("large", true)
	one.SetFloat("scale", 1.5)
	again := store.OpenSettings(folder, "", nil)
	if again.String("firm") != "A. Example" || !again.Bool("large") || again.FloatWithFallback("scale", 1) != 1.5 {
		t.Errorf("%q, %v, %v", again.String("firm"), again.Bool("large"), again.FloatWithFallback("scale", 1))
	}
	again.RemoveValue("firm")
	if is := store.OpenSettings(folder, "", nil); is.StringWithFallback("firm", "none") != "none" || !is.Bool("large") {
		t.Errorf("taken away: %q", is.String("firm"))
	}
	if err := os.WriteFile(filepath.Join(folder, "settings.json"), []byte("{ no"), 0o600); err != nil {
		t.Fatal(err)
	}
	if is := store.OpenSettings(folder, "", nil); is.String("firm") != "" || is.FloatWithFallback("scale", 1) != 1 {
		t.Error("something is read of a broken file")
	}
	memory := store.OpenSettings("", "", nil)
	memory.SetString("firm", "B")
	if memory.String("firm") != "B" {
		t.Error("without a folder nothing is kept")
	}
}

// What was kept elsewhere before is taken over once: changed there afterwards it no longer counts.
func TestEarlierSettingsAreTakenOverOnce(t *testing.T) {
	folder, earlier := t.TempDir(), filepath.Join(t.TempDir(), "preferences.json")
	kept := func(text string) {
		t.Helper()
		if err := os.WriteFile(earlier, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	renamed := func(v map[string]any) {
		if is, ok := v["old"]; ok {
			delete(v, "old")
			v["new"] = is
		}
	}
	kept(`{"folder": "/jobs", "large": true, "scale": 1.2, "old": "EUR"}`)
	is := store.OpenSettings(folder, earlier, renamed)
	if is.String("folder") != "/jobs" || !is.Bool("large") || is.FloatWithFallback("scale", 1) != 1.2 ||
		is.String("new") != "EUR" || is.String("old") != "" {
		t.Errorf("taken over: %q, %v, %q", is.String("folder"), is.Bool("large"), is.String("new"))
	}
	kept(`{"folder": "/other"}`)
	if is = store.OpenSettings(folder, earlier, renamed); is.String("folder") != "/jobs" {
		t.Errorf("the second time it is %q", is.String("folder"))
	}
	if is = store.OpenSettings(t.TempDir(), filepath.Join(folder, "none"), renamed); is.String("folder") != "" {
		t.Error("out of nothing came something")
	}
}
