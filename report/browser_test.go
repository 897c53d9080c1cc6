package report_test

import (
	"bytes"
	"context"
	"encoding/base64"
	"image"
	"image/png"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// browser starts Chromium without a screen. Where there is none the test is
// skipped, but never where all tests must run.
func browser(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		require.NotEqual(t, "true", os.Getenv("CI"), "no chromium here, and all tests must run: %v", err)
		t.Skip("no chromium here")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.Flag("disable-gpu", false), chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true),
		chromedp.Flag("disable-dev-shm-usage", true))
	for range 3 { // on a busy machine it falls over now and then before it has begun
		all, stopAll := chromedp.NewExecAllocator(context.Background(), options...)
		ctx, stop := chromedp.NewContext(all)
		if err = chromedp.Run(ctx); err == nil {
			t.Cleanup(func() { stop(); stopAll() })
			return ctx
		}
		stop()
		stopAll()
	}
	require.NoError(t, err, "the browser does not start")
	return nil
}

// tab is a page in the browser, with what it complained of and asked for.
type tab struct {
	t         *testing.T
	ctx       context.Context
	lock      sync.Mutex
	faults    []string
	requested []string
}

// open shows a page in a tab of its own, at a width of the window.
func open(t *testing.T, browser context.Context, text string, wide int64, before ...chromedp.Action) *tab {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet.html")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	ctx, stop := chromedp.NewContext(browser)
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, time.Minute)
	t.Cleanup(stop)
	p := &tab{t: t, ctx: ctx}
	chromedp.ListenTarget(ctx, p.hear)
	p.run(append([]chromedp.Action{network.Enable(), log.Enable(), runtime.Enable(), chromedp.EmulateViewport(wide, 900)}, before...)...)
	p.run(chromedp.Navigate((&url.URL{Scheme: "file", Path: file}).String()))
	return p
}

func (p *tab) hear(event any) {
	p.lock.Lock()
	defer p.lock.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		p.faults = append(p.faults, e.ExceptionDetails.Error())
	case *runtime.EventConsoleAPICalled:
		p.faults = append(p.faults, "console."+string(e.Type))
	case *log.EventEntryAdded:
		if e.Entry.Level == log.LevelError || e.Entry.Source == log.SourceSecurity {
			p.faults = append(p.faults, e.Entry.Text)
		}
	case *network.EventRequestWillBeSent:
		p.requested = append(p.requested, e.Request.URL)
	}
}

func (p *tab) run(actions ...chromedp.Action) {
	p.t.Helper()
	require.NoError(p.t, chromedp.Run(p.ctx, actions...))
}

// value is what an expression comes to in the page.
func value[T any](p *tab, expression string) T {
	p.t.Helper()
	var out T
	p.run(chromedp.Evaluate(expression, &out))
	return out
}

// view scrolls to the view in three dimensions and waits until it is drawn.
func (p *tab) view() {
	p.t.Helper()
	p.run(chromedp.Evaluate(`document.getElementById('view').scrollIntoView()`, nil),
		chromedp.Poll(`window.plumbhookView && plumbhookView.ready()`, nil, chromedp.WithPollingTimeout(20*time.Second)))
}

// picture is what the canvas shows.
func (p *tab) picture() image.Image {
	p.t.Helper()
	address := value[string](p, `plumbhookView.draw(), document.querySelector('canvas').toDataURL()`)
	data, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(address, "data:image/png;base64,"))
	require.NoError(p.t, err)
	picture, err := png.Decode(bytes.NewReader(data))
	require.NoError(p.t, err)
	return picture
}
