package reports

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"crossgrain/model"
	"crossgrain/reports/drawing"
)

func pageOf(t *testing.T, quilts ...Quilt) string {
	t.Helper()
	return string(writtenBy(t, func(w io.Writer) error { return WritePage(w, quilts) }))
}

// A page is the same each time, names nothing outside it, and its texts are
// escaped.
func TestPageIsOneFile(t *testing.T) {
	evil := lagoon(t, 1)
	evil.Title = `<script>alert("x")</script> & 'more'`
	evil.Fabrics[0].Fabric.Name = `</title><img src=x onerror=alert(1)>`
	for _, quilts := range [][]Quilt{{harbour(t)}, {dunes(t)}, {lagoon(t, 1), lagoon(t, 2)}, {evil}} {
		text := pageOf(t, quilts...)
		if text != pageOf(t, quilts...) {
			t.Errorf("%s: other bytes the second time", quilts[0].Title)
		}
		outside := regexp.MustCompile(`(?i)(src|href|url|action)\s*[=(]\s*"?(https?:|//|[a-z]+\.)`)
		if found := outside.FindString(text); found != "" {
			t.Errorf("%s: it names %q", quilts[0].Title, found)
		}
		if strings.Contains(text, "<script>alert") || strings.Contains(text, "<img") {
			t.Errorf("%s: a name is not escaped", quilts[0].Title)
		}
		if n := strings.Count(text, "<script>"); n != 1 {
			t.Errorf("%s: %d scripts", quilts[0].Title, n)
		}
	}
}

// browser is a tab that shows a page, and what it complained of.
type browser struct {
	t          *testing.T
	ctx        context.Context
	mu         sync.Mutex
	complaints []string
	requests   []string
}

// open shows a page in Chromium.
func open(t *testing.T, quilts ...Quilt) *browser {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatalf("%v; make test installs it (chromium)", err)
	}
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(pageOf(t, quilts...)), 0o666); err != nil {
		t.Fatal(err)
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox)
	ctx, stop := context.WithTimeout(t.Context(), 2*time.Minute)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewExecAllocator(ctx, options...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	b := &browser{t: t, ctx: ctx}
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Listen(ctx, b.hear); err != nil {
		t.Fatal(err)
	}
	b.do(chromedp.Navigate("file://" + file))
	return b
}

// hear keeps what the page complains of, and what it asks for.
func (b *browser) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		b.complaints = append(b.complaints, fmt.Sprintf("%+v", e.ExceptionDetails))
	case *runtime.EventConsoleAPICalled:
		b.complaints = append(b.complaints, fmt.Sprint(e.Type, e.Args))
	case *log.EventEntryAdded:
		b.complaints = append(b.complaints, e.Entry.Text)
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	}
}

func (b *browser) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

// ask evaluates an expression in the page.
func ask[T any](b *browser, expression string) T {
	b.t.Helper()
	value, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		b.t.Fatalf("%s: %v", expression, err)
	}
	return value
}

// quiet checks that nothing was complained of, and nothing asked for but the
// page itself.
func (b *browser) quiet() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.complaints) > 0 {
		b.t.Errorf("the page complains: %s", b.complaints)
	}
	for _, url := range b.requests {
		if !strings.HasPrefix(url, "file://") && !strings.HasPrefix(url, "data:") {
			b.t.Errorf("the page asks for %s", url)
		}
	}
}

// shown are the rows of what to buy that are seen: fabric, width in ticks, the
// length to buy, and the text of the row.
const shown = `[...document.querySelectorAll(".buy tbody tr")].filter(r => r.checkVisibility())
	.map(r => [r.parentElement.dataset.fabric, r.dataset.width, r.querySelector("data").value, r.innerText.replace(/\s+/g, " ").trim()])`

// The page has the figures of the JSON, for each size at each width that is
// chosen, and of a fabric that has not that width those at the nearest.
func TestPageHasTheFiguresOfTheJSON(t *testing.T) {
	for _, quilts := range [][]Quilt{{harbour(t)}, {dunes(t)}, {lagoon(t, 1), lagoon(t, 2)}} {
		b := open(t, quilts...)
		for i, q := range quilts {
			var read jsonQuilt
			if err := json.Unmarshal(jsonOf(t, q), &read); err != nil {
				t.Fatal(err)
			}
			if len(quilts) > 1 {
				b.do(chromedp.Click(chromedp.CSS(fmt.Sprintf("input[name=size][value='%d']", i))))
			}
			for _, width := range usableWidthsOf(q) {
				if radio := fmt.Sprintf("input[name=width][value='%d']", width); ask[int](b, fmt.Sprintf("document.querySelectorAll(%q).length", radio)) > 0 {
					b.do(chromedp.Click(chromedp.CSS(radio)))
				}
				rows := ask[[][]string](b, shown)
				if len(rows) != len(read.Fabrics) {
					t.Fatalf("%s at %v: %d rows for %d fabrics", q.Title, width, len(rows), len(read.Fabrics))
				}
				for j, fabric := range read.Fabrics {
					plan := nearest(t, fabric.Plans, q.Fabrics[j].Fabric.UsableWidths, width)
					at := length(t, plan.UsableWidth.String(), q.Unit)
					if r := rows[j]; r[0] != fabric.ID || r[1] != fmt.Sprint(int64(at)) || r[2] != plan.Buy.Length.String() {
						t.Errorf("%s at %v: row %q, want %s at %v, %s", q.Title, width, r, fabric.ID, at, plan.Buy.Length)
					}
					for _, text := range []string{plan.Buy.Text, plan.Plain.Buy.Text} {
						if !strings.Contains(rows[j][3], drawing.Fractions(text)) {
							t.Errorf("%s at %v: row %q does not say %s", q.Title, width, rows[j][3], text)
						}
					}
					if len(plan.Strips) == 0 {
						continue
					}
					head := words(fmt.Sprintf("%s, usable width %s: buy %s", fabric.Name, measure(at, q.Unit), plan.Buy.Text))
					steps := ask[int](b, fmt.Sprintf(`[...document.querySelectorAll(".plan")].filter(p => p.checkVisibility() && p.querySelector("h3").innerText === %q)[0].querySelectorAll("ol > li").length`, head))
					if want := len(joined(plan.Strips)); steps != want {
						t.Errorf("%s at %v: %d steps of %s, want %d", q.Title, width, steps, fabric.ID, want)
					}
				}
			}
		}
		b.quiet()
	}
}

func usableWidthsOf(q Quilt) []model.Length {
	var all []model.Length
	for _, f := range q.Fabrics {
		for _, w := range f.Fabric.UsableWidths {
			if !slices.Contains(all, w) {
				all = append(all, w)
			}
		}
	}
	return all
}

// nearest is the plan at the widest of the fabric's widths that is no wider than
// the one asked for, or else at its narrowest.
func nearest(t *testing.T, plans []jsonPlan, widths []model.Length, width model.Length) jsonPlan {
	t.Helper()
	best := 0
	for i, w := range widths {
		if w <= width {
			best = i
		}
	}
	return plans[best]
}

// Ticks are kept when the page is loaded again, are counted, and are those of
// this quilt alone.
func TestPageRemembersTicks(t *testing.T) {
	b := open(t, harbour(t))
	const ticked = `document.querySelectorAll("input[type=checkbox]:checked").length`
	const progress = `document.querySelector(".progress").innerText`
	all := ask[string](b, progress)
	if !regexp.MustCompile(`^0 of [1-9]\d* steps done$`).MatchString(all) {
		t.Fatalf("the page says %q", all)
	}
	b.do(chromedp.Click(chromedp.CSS(".plan:not([hidden]) ol li:nth-child(2) input")), chromedp.Click(chromedp.CSS(".plan:not([hidden]) ol li:nth-child(3) .tick span")))
	if got, want := ask[string](b, progress), strings.Replace(all, "0", "2", 1); got != want {
		t.Errorf("the page says %q, want %q", got, want)
	}
	b.do(chromedp.Click(chromedp.CSS("input[name=width][value=all]")), chromedp.Reload())
	if n := ask[int](b, ticked); n != 2 {
		t.Errorf("%d ticks after loading again", n)
	}
	if on := ask[string](b, `document.querySelector("input[name=width]:checked").value`); on != "all" {
		t.Errorf("the width after loading again is %q", on)
	}
	// By the keyboard alone.
	ask[bool](b, `document.querySelector(".plan ol li input").focus() ?? true`)
	b.do(chromedp.Click(chromedp.CSS(".plan ol li:nth-child(2) input")))
	if n := ask[int](b, ticked); n != 1 {
		t.Errorf("%d ticks after one is taken off", n)
	}
	ask[bool](b, `(window.confirm = () => true) && true`)
	b.do(chromedp.Click(chromedp.CSS(".clear")), chromedp.Reload())
	if n := ask[int](b, ticked); n != 0 {
		t.Errorf("%d ticks after they are cleared", n)
	}
	b.quiet()
}

// Another plan of the same quilt has other keys, so that its ticks are its own.
func TestPageKeysDiffer(t *testing.T) {
	key := regexp.MustCompile(`<body data-key="(\w+)">`)
	one, two := lagoon(t, 1), lagoon(t, 2)
	a, b := key.FindString(pageOf(t, one)), key.FindString(pageOf(t, two))
	if a == "" || a == b {
		t.Errorf("keys %q and %q", a, b)
	}
	boxes := regexp.MustCompile(`type="checkbox" data-key="([^"]*)"`).FindAllString(pageOf(t, one, two), -1)
	slices.Sort(boxes)
	if n := len(boxes); n == 0 || len(slices.Compact(boxes)) != n {
		t.Errorf("%d boxes, some with one key", n)
	}
}

// Nothing goes beyond the page on a telephone or a desk, and axe finds no fault
// that is serious.
func TestPageFitsAndIsAccessible(t *testing.T) {
	axe, err := os.ReadFile("../bin/axe/node_modules/axe-core/axe.min.js")
	if err != nil {
		t.Log("axe-core is not in bin/axe; make test puts it there")
	}
	long := lagoon(t, 1)
	long.Title = strings.Repeat("endless", 30)
	long.Fabrics[0].Fabric.Name, long.Whole.Notes[0] = long.Title, long.Title
	for _, quilts := range [][]Quilt{{harbour(t)}, {lagoon(t, 1), lagoon(t, 2)}, {plainly(t, "lamp-row.yaml", "")}, {long}} {
		b := open(t, quilts...)
		for _, width := range []int64{375, 1280} {
			b.do(chromedp.EmulateViewport(width, 900))
			over := ask[[]string](b, `[...document.querySelectorAll("body *")].filter(e => !e.closest(".wide > *, svg *, .skip"))
				.filter(e => e.getBoundingClientRect().right > innerWidth + 0.5 || e.getBoundingClientRect().left < -0.5).map(e => e.tagName + " " + e.className)`)
			if wide := ask[int64](b, "document.documentElement.scrollWidth"); wide > width || len(over) > 0 {
				t.Errorf("%.20s at %d: %d wide, beyond it %v", quilts[0].Title, width, wide, over)
			}
			if axe == nil {
				continue
			}
			ask[bool](b, string(axe)+"; true")
			faults, err := chromedp.Run(b.ctx, chromedp.Evaluate[[]string](`axe.run({resultTypes: ["violations"]}).then(r =>
				r.violations.map(v => v.impact + ": " + v.id + ": " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | ")))`, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range faults {
				if strings.HasPrefix(f, "serious") || strings.HasPrefix(f, "critical") {
					t.Errorf("%.20s at %d: %s", quilts[0].Title, width, f)
				} else {
					t.Logf("%.20s at %d: %s", quilts[0].Title, width, f)
				}
			}
		}
		b.quiet()
	}
}

// The SVG in a page is well-formed: a browser reads it leniently, others do not.
func TestPageDrawingsAreXML(t *testing.T) {
	text := pageOf(t, harbour(t))
	svg := regexp.MustCompile(`(?s)<svg class="drawing".*?</svg>`).FindAll([]byte(text), -1)
	if len(svg) < 4 {
		t.Fatalf("%d drawings", len(svg))
	}
	for _, s := range svg {
		rectsOf(t, bytes.ReplaceAll(s, []byte(`<svg class`), []byte(`<svg xmlns="http://www.w3.org/2000/svg" class`)))
	}
}
