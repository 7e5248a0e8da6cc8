package process

import (
	"borewright/process/field"
	"borewright/process/qty"
)

// Limits are what the author allows. All are filled in by the loader.
type Limits struct {
	SpringRough  qty.Length    // on diameter; 0: as much as what must stay for the passes after it allows
	SpringFinish qty.Length    // on diameter
	SpringUsual  bool          // it was left out: wide limits of size allow more (schedule.Visit.SpringMost)
	DepthMost    qty.Length    // radial, a pass
	FeedMost     qty.Length    // a revolution
	SpeedMost    qty.RevPerMin // 0: the machine's
	Overhang     float64       // stickout over bar diameter that draws a caution
	ForceError   float64       // fraction by which the force model may be off, 0.3
	SettingError qty.Length    // cutter setting or, by increment, one move of it, on diameter, ± (95 %)
	SettingUsual bool          // it was left out, and is what people hold
	GaugeError   qty.Length    // bore gauge, ± (95 %)
	Temperature  float64       // work against gauge master, ± K
	PassesMost   int
	ChipRoom     qty.Length // least radial room round the bar
	RestStock    qty.Length // on diameter, left by roughing where the casting rests before the finish
	HoldMinutes  float64    // time to stop, measure and reset at a hold point
	HandRate     qty.Length // how far the slide that feeds is drawn back by hand in a minute
	Sing         bool       // plan a finish that will chatter by the figures
}

// UsualRoughSpring and UsualFinishSpring are how far passes spring at the most in usual work, on diameter, in and mm. Common practice, no source.
const UsualRoughSpring, UsualFinishSpring = "0.004|0.10", "0.0008|0.02"

// Describe says what the keys of the limits are.
func (l *Limits) Describe(d *field.Desc) {
	d.Length(&l.SpringRough, "spring_rough").Otherwise("what must stay for the passes after it allows").Span(">0..0.1|>0..2.5").Example(UsualRoughSpring).
		Says("most spring of a roughing pass, on diameter").Weighs(SpoilsSetting, "spring, roughing").Fine()
	d.Length(&l.SpringFinish, "spring_finish").Default(UsualFinishSpring).Span(">0..0.02|>0..0.5").Example(UsualFinishSpring).
		Says("most spring of a finishing pass, on diameter; left out, half of what the limits of its size are apart, where that is more and no other bore is cut at its setting").
		Weighs(SpoilsSize, "spring, finishing").Fine()
	d.Length(&l.DepthMost, "depth_most").Default("0.12|3").Span(">0..0.6|>0..15").Example("0.12|3").Says("deepest cut, radial").
		Weighs(SpoilsSetting, "depth of cut")
	d.Length(&l.FeedMost, "feed_most").Default("0.02|0.5").Span(">0..0.2|>0..5").Example("0.02|0.5").Says("coarsest feed a revolution").
		Weighs(SpoilsFeed, "feed").PerTurn()
	d.Turns(&l.SpeedMost, "speed_most").Otherwise("what the machine has").Span(">0..20000").Example("400").Says("fastest spindle speed").
		Weighs(SpoilsFeed, "spindle speed")
	d.Number(&l.Overhang, "overhang", "").Otherwise("what the bar's material stands (4 for steel)").Span("1..20").Example("4").
		Says("stickout over bar diameter from which a caution is given").
		Weighs(SpoilsReach, "stickout over diameter")
	d.Number(&l.ForceError, "force_error", "").Default("0.30").Span("0..1").Example("0.30").Says("fraction by which the forces may be off; feed force besides by 4/3 of it on its own, so that ±30 % make ±50 % of it").
		Weighs(SpoilsSize, "error of the force model").As(qty.KindShare)
	d.Length(&l.SettingError, "setting_error").Otherwise("what people hold by cutter.set_by, in (mm): increment 0.0003 (0.008), by a fine head 0.0001 (0.0025); over_bar 0.0005 (0.013); preset 0.0004 (0.010)").Span("0..0.01|0..0.25").Example("0.0003|0.008").
		Says("how well a cutter is set or, by increment, moved once, ± on diameter, 19 times in 20").
		Weighs(SpoilsSize, "error of setting").Fine()
	d.Length(&l.GaugeError, "gauge_error").Default("0.0002|0.005").Span("0..0.01|0..0.25").Example("0.0002|0.005").
		Says("how well the bore is gauged, ±, 19 times in 20").
		Weighs(SpoilsSize, "error of the gauge").Fine()
	d.Number(&l.Temperature, "temperature", "K").Default("2").Span("0..40").Example("2").Says("work against gauge master, ±").
		Weighs(SpoilsSize, "work against gauge master")
	d.Count(&l.PassesMost, "passes_most").Default("20").Span("1..200").Example("20").Says("most passes in one bore").
		Weighs(SpoilsSetting, "passes, most")
	d.Length(&l.ChipRoom, "chip_room").Default("0.06|1.5").Span("0..1|0..25").Example("0.06|1.5").
		Says("least room between bar and bore, on radius, for chips to come out; twice that is comfortable").
		Weighs(SpoilsReach, "room for chips")
	d.Flag(&l.Sing, "sing").Default("false").Example("true").
		Says("plan a finish that will chatter by the figures; without it such a plan is refused").
		Weighs(SpoilsSize, "a finish that will sing").YesNo("allowed", "refused")
	// 0.4 to 1.0 mm is what a shop leaves for a semi-finish (from memory).
	d.Length(&l.RestStock, "rest_stock").Default("0.02|0.5").Span(">0..0.4|>0..10").Example("0.03|0.8").
		Says("left on diameter by roughing where all bores are roughed before one is finished, for what the casting moves as it rests").
		Weighs(SpoilsSetting, "left for after the rest")
	d.Number(&l.HoldMinutes, "hold_minutes", "minutes").Default("6").Span("0..240").Example("6").Says("to stop, measure and reset at a hold point").
		Weighs(SpoilsFeed, "time at a hold point").As(qty.KindMinutes)
	// The default is common practice, no source.
	d.Length(&l.HandRate, "hand_rate").Default("20|500").Span(">0..400|>0..10000").Example("20|500").Per("min").
		Says("how far the slide that feeds is drawn back by hand in a minute, where a cutter is drawn out stopped").
		Weighs(SpoilsFeed, "drawn back by hand, a minute")
	d.Worked("it was left out", &l.SettingUsual, &l.SpringUsual)
}
