package org.sideport.cli;
@picocli.CommandLine.Command(name="demo-data") final class DemoDataCommand { DemoDataCommand(Console c){} }
