package words

var enginePlant = map[string]wording{}
var engineTap = map[string]wording{}
var engineWater = map[string]wording{}
var engineFindings = map[string]wording{}
var engineCures = map[string]wording{}
var engineFacts = map[string]wording{}
var engineSteps = map[string]wording{}
var engineRanges = map[string]wording{}
var engineNotes = map[string]wording{}
var engineMeanings = map[string]wording{}
var engineSurveyFaults = map[string]wording{}
