package charts

import (
	"strconv"

	"brimlog/ingest/quantity"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// A drawing is a chart as the page's script is given it: the option of the drawing library, and the ends of its value scale in
// base units. In the option, the names of functions and "$colours" are bound by the script to its own; a series with an Id takes
// its rows from the tanks, or from the job that it is drawn for.
type drawing struct {
	Option map[string]any `json:"option"`
	Low    Figure         `json:"low"`
	High   Figure         `json:"high"`
}

// Figure is a number that may be unknown: null in JSON.
type Figure = quantity.Figure

// A row is what one mark is drawn from.
type row []Figure

// blank is an empty chart with all that is the same for every one of them.
func blank(id string, top int, across opts.XAxis, up opts.YAxis, trigger string) *echarts.Custom {
	c := echarts.NewCustom()
	c.SetGlobalOptions(
		echarts.WithInitializationOpts(opts.Initialization{ChartID: id}),
		echarts.WithAnimation(false),
		echarts.WithTitleOpts(opts.Title{Show: opts.Bool(false)}),
		echarts.WithLegendOpts(opts.Legend{Show: opts.Bool(false), Top: "0", Left: "0"}), // the page writes its own, as text
		echarts.WithGridOpts(opts.Grid{Left: "2", Right: "14", Top: strconv.Itoa(top), Bottom: "4", ContainLabel: opts.Bool(true)}),
		echarts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: trigger, Formatter: types.FuncStr(id)}),
		echarts.WithXAxisOpts(ruled(across)),
		echarts.WithYAxisOpts(scaled(up)),
	)
	return c
}

// ruled gives the axis along the bottom its ink.
func ruled(x opts.XAxis) opts.XAxis {
	x.AxisLine = &opts.AxisLine{OnZero: opts.Bool(false), LineStyle: &opts.LineStyle{Color: "$ink"}}
	x.AxisTick = &opts.AxisTick{LineStyle: &opts.LineStyle{Color: "$ink"}}
	x.SplitLine = &opts.SplitLine{Show: opts.Bool(false)}
	x.AxisLabel = &opts.AxisLabel{Color: "$soft", FontSize: 12, HideOverlap: opts.Bool(true), Formatter: types.FuncStr(x.Name)}
	x.Name = ""
	return x
}

// scaled gives the axis up the side its ink.
func scaled(y opts.YAxis) opts.YAxis {
	y.AxisLine = &opts.AxisLine{Show: opts.Bool(false)}
	y.SplitLine = &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: "$rule", Type: "dotted"}}
	y.AxisLabel = &opts.AxisLabel{Show: opts.Bool(true), Color: "$soft", FontSize: 12, Formatter: types.FuncStr(y.Name)}
	y.Name = ""
	return y
}

// add draws rows with a mark of the page's script. x and y say which parts of a row lie along which axis.
func add(c *echarts.Custom, name, id, mark string, x, y []int, rows []row) {
	c.AddSeries(name, nil, echarts.WithSeriesOpts(func(s *echarts.SingleSeries) {
		s.Id = id
		s.RenderItem = types.FuncStr(mark)
		s.Encode = &opts.Encode{X: along(x), Y: along(y)}
		s.Data = rows
		if rows == nil {
			s.Data = []row{}
		}
	}))
}

// along says in the library's way that no part of a row lies along an axis.
func along(parts []int) []int {
	if parts == nil {
		return []int{-1}
	}
	return parts
}

// option is the chart as a plain document.
func option(c *echarts.Custom) map[string]any {
	c.Validate()
	return c.JSON()
}
