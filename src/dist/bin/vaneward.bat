@echo off
rem Starts Vaneward with the JDK in JAVA_HOME, or else the java on the path. VANEWARD_JAVA_OPTS takes options for it, such as -Xmx4g.
setlocal
set "JAVA=java.exe"
if defined JAVA_HOME set "JAVA=%JAVA_HOME%\bin\java.exe"
if not defined JAVA_HOME for %%J in (java.exe) do if not "%%~$PATH:J"=="" set "JAVA=%%~$PATH:J"
if not exist "%JAVA%" (
  echo vaneward: needs Java 17 or newer; set JAVA_HOME to its folder or put java on the path 1>&2
  exit /b 2
)
"%JAVA%" -XX:+UseParallelGC -XX:TieredStopAtLevel=1 %VANEWARD_JAVA_OPTS% -jar "%~dp0..\lib\vaneward.jar" %*
exit /b %ERRORLEVEL%
