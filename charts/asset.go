package charts

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"strings"
	"sync"
)

//go:embed page echarts
var assets embed.FS

// What follows is made when the first page is written: no other command is to wait for it.

// forms are the templates: page.html, and one for each section.
var forms = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page").ParseFS(assets, "page/*.html"))
})

// What the page carries. The order of the scripts is that of their needs; they share one scope of their own.
var (
	style = sync.OnceValue(func() string {
		return join("page/paper.css", "page/layout.css", "page/card.css", "page/work.css", "page/rule.css", "page/print.css")
	})
	library = sync.OnceValue(func() string {
		return "/*\nThe parts of Apache ECharts that this page draws with, built from its version 5.6.0.\nLicensed to the Apache Software Foundation under the Apache License, Version 2.0.\n" +
			join("echarts/NOTICE", "echarts/LICENSE-zrender", "echarts/LICENSE-d3") + "*/\n" + join("echarts/echarts.parts.js")
	})
	script = sync.OnceValue(func() string {
		return "(() => {\n'use strict';\n" + join("page/unit.js", "page/paint.js", "page/marks.js", "page/axes.js",
			"page/story.js", "page/draw.js", "page/walk.js", "page/table.js", "page/print.js", "page/start.js") + "})();\n"
	})
)

// policy lets nothing run but the page's own two scripts, apply nothing but its own style sheet, and load nothing at all. Styles
// set on single elements are allowed, since the drawing library writes fonts that way; they cannot reach outside.
var policy = sync.OnceValue(func() string {
	return strings.Join([]string{
		"default-src 'none'",
		"script-src " + hash(library()) + " " + hash(script()),
		"style-src " + hash(style()),
		"style-src-attr 'unsafe-inline'",
		"img-src data:",
		"base-uri 'none'",
		"form-action 'none'",
	}, "; ")
})

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

func join(files ...string) string {
	var b strings.Builder
	for _, f := range files {
		text, err := assets.ReadFile(f)
		if err != nil {
			panic(err) // embedded: only a mistyped name can fail
		}
		b.Write(text)
		b.WriteByte('\n')
	}
	return b.String()
}
